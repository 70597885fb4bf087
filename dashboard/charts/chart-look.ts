import type uPlot from 'uplot'
import { timeLabels } from './time-axis.ts'

type Ink = (name: string) => string

/** The line, the two edges of its band, and the line corrected for drift, in the order of the lists drawn. */
export function seriesLook(ink: Ink): uPlot.Series[] {
  return [
    {},
    {
      stroke: () => ink('--ink'),
      width: 1.8,
      spanGaps: false,
      points: { size: 4.5, fill: () => ink('--ink'), stroke: () => ink('--ink') },
    },
    { stroke: 'transparent', width: 0, points: { show: false } },
    { stroke: 'transparent', width: 0, points: { show: false } },
    {
      stroke: () => ink('--late'),
      width: 2,
      dash: [7, 5],
      spanGaps: false,
      points: { show: false },
    },
  ]
}

/** Times along the foot, values on the left, in ink and pencil. */
export function axesLook(
  ink: Ink,
  wish: { zone: string | undefined; tickText: (value: number, apart: number) => string },
): uPlot.Axis[] {
  const axis: uPlot.Axis = {
    stroke: () => ink('--pencil'),
    font: `12px ${ink('--hand')}`,
    grid: { stroke: () => ink('--rule'), width: 1 },
    ticks: { stroke: () => ink('--rule-strong'), width: 1, size: 5 },
  }
  return [
    {
      ...axis,
      size: 30,
      space: 72,
      values: (_, seconds) => timeLabels(seconds, wish.zone),
      incrs: TIME_STEPS,
    },
    {
      ...axis,
      size: 74,
      space: 26,
      incrs: VALUE_STEPS,
      values: (_, values) => {
        const apart = Math.abs((values[1] ?? 1) - (values[0] ?? 0))
        return values.map((value) => wish.tickText(value, apart))
      },
    },
  ]
}

const MINUTE = 60
const HOUR = 60 * MINUTE
const DAY = 24 * HOUR
const TIME_STEPS = [
  ...[1, 2, 5, 10, 15, 30],
  ...[1, 2, 5, 10, 15, 30].map((minutes) => minutes * MINUTE),
  ...[1, 2, 3, 6, 12].map((hours) => hours * HOUR),
  ...[1, 2, 7, 14, 28].map((days) => days * DAY),
]
/** 1, 2 and 5 of every power of ten, so that a tick needs no more digits than its step. */
const VALUE_STEPS = [-3, -2, -1, 0, 1, 2, 3, 4, 5].flatMap((order) =>
  [1, 2, 5].map((step) => Number((step * 10 ** order).toPrecision(1))),
)
