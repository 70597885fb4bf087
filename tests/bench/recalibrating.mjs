import { cpSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { bareKeyedRate } from './bare-tables.mjs'
import { boardNames, surveyOf } from './class-messages.mjs'
import { fillStore, openWriter, recomputeAll, rollAll } from './fill-store.mjs'
import { startHub, startProcess } from './hub-process.mjs'
import { byTurns, freshFolder, secondsOf } from './measuring.mjs'

const BOARDS = boardNames(10)
const READINGS = 1_000_000
const ROWS = READINGS / 5
/** Boards that send while values are worked out anew: 1,000 readings a second. */
const EVERY_MS = 50
const SECONDS = 8
const paced = fileURLToPath(new URL('paced-boards.mjs', import.meta.url))

/** Each gives every calibration of a kind other points; temperature changes pH with it. */
const CHANGES = {
  wind: (recipe) => ({ ...recipe, offsetMetresPerSecond: 0.35 }),
  ph: (recipe) => ({
    ...recipe,
    points: recipe.points.map((point) => ({ ...point, millivolt: point.millivolt + 1 })),
  }),
  temperature: (recipe) => ({ ...recipe, offsetCelsius: -0.4 }),
}

function changed(survey, kind) {
  return {
    ...survey,
    calibrations: survey.calibrations.map((each) =>
      each.probe.endsWith(`-${kind}`) ? { ...each, recipe: CHANGES[kind](each.recipe) } : each,
    ),
  }
}

function copyOf(folder) {
  const copy = freshFolder()
  cpSync(folder, copy, { recursive: true })
  return copy
}

/** @returns values a second */
async function rateOf(folder, kind) {
  const { writer, keeper } = openWriter(copyOf(folder), BOARDS)
  keeper.change('bench', 'recalibrated', (survey) => changed(survey, kind))
  let rows = 0
  const seconds = await secondsOf(() => {
    rows = recomputeAll(writer, keeper)
  })
  writer.close()
  return rows / seconds
}

/** How long boards wait for their acknowledgement, ms, while all pH and temperatures are worked out anew, or nothing is. */
async function waits(folder, isRecalibrating) {
  const hub = await startHub(copyOf(folder))
  const save = (survey) =>
    fetch(`${hub.address}/api/surveys/bench`, {
      method: 'PUT',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(survey),
    })
  await pause(1000)
  const messages = (SECONDS * 1000) / EVERY_MS
  const sending = startProcess(
    process.execPath,
    [paced, ...[hub.mqttPort, BOARDS.length, messages, EVERY_MS].map(String)],
    /done (.*)\n/,
  )
  await pause(500)
  if (isRecalibrating) await save(changed(surveyOf(BOARDS), 'temperature'))
  const { match } = await sending
  await hub.stop()
  const { p50, p99 } = JSON.parse(match[1])
  return { p50, p99 }
}

/** Working out stored values anew after a change of calibration, beside inserting as many rows into a plain keyed table. */
export async function measureRecalibrating(runs) {
  const folder = freshFolder()
  fillStore(folder, BOARDS, READINGS)
  const { writer } = openWriter(folder, BOARDS)
  rollAll(writer)
  writer.close()
  const rates = await byTurns(runs, {
    bare: () => bareKeyedRate(ROWS),
    wind: () => rateOf(folder, 'wind'),
    ph: () => rateOf(folder, 'ph'),
    temperature: () => rateOf(folder, 'temperature'),
  })
  const { quiet, busy } = await byTurns(runs, {
    quiet: () => waits(folder, false),
    busy: () => waits(folder, true),
  })
  const row = (what, rate) => ({
    what,
    unit: 'readings/s',
    hub: rate.value,
    limits: [['bare insert of as many', rates.bare.value, { atLeast: 0.5 }]],
  })
  const wait = (what, key) => ({
    what: `acknowledged after, ${what}, at 1,000 readings/s while recalibrating`,
    unit: 'ms',
    hub: busy[key],
    limits: [['the same, nothing to recalibrate', quiet[key]]],
  })
  return [
    row('recalibrating wind', rates.wind),
    row('recalibrating pH, compensated', rates.ph),
    row('recalibrating temperature, and the pH it compensates', rates.temperature),
    wait('median', 'p50'),
    wait('p99', 'p99'),
  ]
}
