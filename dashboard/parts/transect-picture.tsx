import { isOnTransect, type TransectQuadrat } from '../../hub/contract/quadrat-place.ts'
import type { ChannelNow } from '../../hub/contract/reading.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { rowsFor } from '../quantities.ts'
import { newestOf } from '../standing.ts'
import { SheetTall } from './sheet-tall.tsx'
import { LEAST_COLUMN, LEAST_LABELS, SheetWide } from './sheet-wide.tsx'
import { useWidth } from './use-width.ts'

type Transect = SurveyFile['transects'][number]

/** What both ways of drawing the picture are given. */
export interface SheetProps {
  survey: SurveyFile
  transect: Transect
  quadrats: readonly TransectQuadrat[]
  rows: ReturnType<typeof rowsFor>
  /** the channel to show for a quantity at a quadrat */
  channelAt: (quadrat: string, quantity: string) => ChannelNow | undefined
  intervalOf: (channel: ChannelNow | undefined) => number | undefined
  width: number
  nowMs: number
}

/** A transect with its quadrats and their newest values: across the page where there is room, else down it. */
export function TransectPicture(props: {
  survey: SurveyFile
  transect: Transect
  channels: readonly ChannelNow[]
  nowMs: number
}) {
  const { survey, transect, channels, nowMs } = props
  const [ref, width] = useWidth<HTMLDivElement>()
  const quadrats = survey.quadrats
    .filter(isOnTransect)
    .filter((quadrat) => quadrat.transect === transect.id)
    .sort((one, other) => one.distanceMetres - other.distanceMetres)
  const here = channels.filter((channel) => channel.survey === survey.id && channel.transect === transect.id)
  const byPlace = new Map<string, ChannelNow[]>()
  for (const channel of here) {
    const key = `${channel.quadrat}\n${channel.quantity}`
    byPlace.set(key, [...(byPlace.get(key) ?? []), channel])
  }
  const intervals = new Map(survey.boards.map((board) => [board.name, board.sampleIntervalSeconds]))
  const sheet: SheetProps = {
    survey,
    transect,
    quadrats,
    rows: rowsFor(here.flatMap((channel) => channel.quantity ?? [])),
    channelAt: (quadrat, quantity) => newestOf(byPlace.get(`${quadrat}\n${quantity}`) ?? []),
    intervalOf: (channel) => (channel ? intervals.get(channel.board) : undefined),
    width,
    nowMs,
  }
  const isWide = width >= Math.min(1000, LEAST_LABELS + 8 + Math.max(7, quadrats.length) * LEAST_COLUMN)
  return (
    <div class="picture" ref={ref}>
      {width > 0 && (isWide ? <SheetWide {...sheet} /> : <SheetTall {...sheet} />)}
    </div>
  )
}
