/**
 * How the hub bears many boards and many readings: npm run bench -- scale (6 minutes), or -- hundred-million (20 minutes and 13 GB
 * of disk).
 */
import { statfsSync } from 'node:fs'
import { get } from 'node:http'
import { tmpdir } from 'node:os'
import { text as textOf } from 'node:stream/consumers'
import { bareKeyedRate } from './bare-tables.mjs'
import { boardNames, READINGS_PER_MESSAGE, START_MS } from './class-messages.mjs'
import { commitMessages, fillStore, openWriter, recomputeAll, rollAll } from './fill-store.mjs'
import { startHub } from './hub-process.mjs'
import { freshFolder, median, memoryOf, secondsOf } from './measuring.mjs'

const BOARDS = [1, 10, 100, 1000]
const BYTES_PER_READING = 130
const RUNS = 5
/** Recalibrating is measured on about so many readings: all would only take longer. */
const RECALIBRATED = 200_000

const rfc3339 = (ms) => new Date(ms).toISOString()

async function medianMs(work) {
  const times = []
  for (let run = 0; run < RUNS; run++) times.push((await secondsOf(work)) * 1000)
  return median(times)
}

/** Of http rather than fetch, which gives up on an answer that takes minutes. */
async function read(url) {
  const response = await new Promise((resolve, reject) => get(url, resolve).once('error', reject))
  const text = await textOf(response)
  if (response.statusCode !== 200) throw new Error(text)
  return text
}

async function secondsToListening(folder) {
  let hub
  const seconds = await secondsOf(async () => {
    hub = await startHub(folder)
  })
  return { hub, seconds }
}

/** Lines a second of a download, for at most so many seconds: the rate of a long one does not change. */
async function downloadRate(url, longestSeconds = 10) {
  const response = await new Promise((resolve) => get(url, resolve))
  const begun = performance.now()
  let lines = 0
  for await (const chunk of response) {
    for (let at = chunk.indexOf(0x0a); at !== -1; at = chunk.indexOf(0x0a, at + 1)) lines++
    if (performance.now() - begun > longestSeconds * 1000) break
  }
  response.destroy()
  return lines / ((performance.now() - begun) / 1000)
}

/** Some hundred readings a commit, as when boards send by the second; with sealing. */
async function ingestRate(writer, keeper, boards, from) {
  const atOnce = Math.max(1, Math.round(50 / boards.length))
  const commits = Math.max(5, Math.ceil(20_000 / (atOnce * boards.length * READINGS_PER_MESSAGE)))
  const rates = []
  let first = from
  for (let run = 0; run < 3; run++) {
    const begin = first
    const seconds = await secondsOf(() => {
      for (let commit = 0; commit < commits; commit++, first += atOnce)
        commitMessages(writer, keeper, boards, first, first + atOnce)
      writer.seal()
    })
    rates.push(((first - begin) * boards.length * READINGS_PER_MESSAGE) / seconds)
  }
  return median(rates)
}

/** Gives the thermometers of some boards another offset. @returns rows a second */
async function recalibrationRate(writer, keeper, boards, messages) {
  const some = new Set(
    boards
      .slice(0, Math.max(1, Math.round(RECALIBRATED / 2 / messages)))
      .map((name) => `${name}-temperature`),
  )
  keeper.change('bench', 'recalibrated', (survey) => ({
    ...survey,
    calibrations: survey.calibrations.map((each) =>
      some.has(each.probe) ? { ...each, recipe: { ...each.recipe, offsetCelsius: 0.3 } } : each,
    ),
  }))
  let rows = 0
  const seconds = await secondsOf(() => {
    rows = recomputeAll(writer, keeper)
  })
  return { rows, rate: rows / seconds }
}

async function measureStore(boardCount, readings, empty) {
  const boards = boardNames(boardCount)
  const folder = freshFolder()
  const fillSeconds = await secondsOf(() => fillStore(folder, boards, readings))
  const messages = Math.round(readings / READINGS_PER_MESSAGE / boardCount)
  const size = `${boardCount} boards, ${readings.toLocaleString('en')} readings`
  process.stderr.write(`${size}: filled in ${fillSeconds.toFixed(0)} s\n`)
  const unrolled = openWriter(folder, boards)
  const rollSeconds = await secondsOf(() => rollAll(unrolled.writer))
  unrolled.writer.close()

  const { hub, seconds: startSeconds } = await secondsToListening(folder)
  const endMs = START_MS + messages * 1000
  const series = (spanMs) => {
    const from = rfc3339(Math.max(START_MS - 1000, endMs - spanMs))
    return read(
      `${hub.address}/api/surveys/bench/quadrats/board-0/series?quantity=soil_temperature&from=${from}&to=${rfc3339(endMs)}&steps=2000`,
    )
  }
  const charts = {}
  for (const [name, ms] of Object.entries({ '10 min': 600_000, day: 86_400_000, everything: Infinity }))
    charts[name] = await medianMs(() => series(ms))
  const directory = await medianMs(() => read(`${hub.address}/api/directory`))
  const completeness = await secondsOf(() => read(`${hub.address}/api/surveys/bench/completeness`))
  const clean = await secondsOf(() => read(`${hub.address}/api/surveys/bench/clean`))
  const before = memoryOf(hub.pid).highest
  const csv = await downloadRate(`${hub.address}/api/export/readings.csv`)
  const csvMegabytes = memoryOf(hub.pid).highest
  const summary = await secondsOf(() => read(`${hub.address}/api/surveys/bench/summary`))
  const summaryMegabytes = memoryOf(hub.pid).highest
  await hub.stop()

  const { writer, keeper } = openWriter(folder, boards)
  const ingest = await ingestRate(writer, keeper, boards, messages)
  const recalibration = await recalibrationRate(writer, keeper, boards, messages)
  const bare = bareKeyedRate(RECALIBRATED)
  writer.close()
  const row = (what, unit, number, limits = []) => ({ what: `${size}: ${what}`, unit, hub: number, limits })
  return [
    row('rolled', 'readings/s', readings / rollSeconds),
    row('start to listening', 's', startSeconds, [['with an empty folder', empty]]),
    ...Object.entries(charts).map(([name, ms]) => row(`chart of ${name}`, 'ms', ms)),
    row('directory', 'ms', directory),
    row('completeness', 'ms', completeness * 1000),
    row('count of clean readings', 'ms', clean * 1000),
    row('clean CSV', 'rows/s', csv),
    row('summary of every quadrat', 's', summary),
    row('memory at most, pages and charts', 'MB', before),
    row('memory at most, CSV', 'MB', csvMegabytes),
    row('memory at most, summary', 'MB', summaryMegabytes),
    row('commit and seal', 'readings/s', ingest),
    row(`recalibrating ${recalibration.rows.toLocaleString('en')}`, 'readings/s', recalibration.rate, [
      ['bare insert of as many', bare],
    ]),
  ]
}

function requireDisk(readings) {
  const { bavail, bsize } = statfsSync(tmpdir())
  const gigabytes = (readings * BYTES_PER_READING) / 1e9
  if (bavail * bsize < readings * BYTES_PER_READING * 1.2)
    throw new Error(`${tmpdir()} has no room for ${gigabytes.toFixed(0)} GB`)
}

/** Every number of boards with a million and ten million readings. */
export const measureScale = () =>
  measurePairs([1e6, 1e7].flatMap((readings) => BOARDS.map((boards) => [boards, readings])))

export const measureHundredMillion = () => measurePairs([[100, 1e8]])

/** @param pairs  numbers of boards and of readings */
async function measurePairs(pairs) {
  const starts = []
  for (let run = 0; run < 3; run++) {
    const { hub, seconds } = await secondsToListening(freshFolder())
    starts.push(seconds)
    await hub.stop()
  }
  const rows = []
  for (const [boards, readings] of pairs) {
    requireDisk(readings)
    rows.push(...(await measureStore(boards, readings, median(starts))))
  }
  return rows
}
