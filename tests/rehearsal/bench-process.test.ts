import { afterEach, describe, expect, it } from 'vitest'
import { SurveyFile } from '../../hub/contract/survey.ts'
import { type Line, listenOn, spawnClass, startBroker } from './listening-hub.ts'

const running: (() => Promise<void> | void)[] = []
afterEach(async () => {
  for (const end of running.splice(0).reverse()) await end()
})

/** A class whose boards are heard; what they say is read in the truth. */
async function classOnBench(...args: string[]) {
  const broker = await startBroker(() => {})
  const ports: ReturnType<typeof listenOn>[] = []
  const options = ['--broker', broker.url(), '--seed', '7', '--speed', '20', '--interval', '4', ...args]
  const group = spawnClass(options, (line) => {
    if (line['kind'] === 'port')
      ports.push(listenOn(String(line['path']), Number(line['baudRate']), () => {}))
  })
  running.push(
    () => broker.stop(),
    async () => {
      group.child.kill('SIGTERM')
      await group.ended
      for (const port of ports) port.close()
      group.clear()
    },
  )
  return {
    group,
    say: (line: object | string) =>
      void group.child.stdin?.write(`${typeof line === 'string' ? line : JSON.stringify(line)}\n`),
    signalsOf: (board: string, channel: string): Line[] =>
      group.truth().filter((line) => !line['kind'] && line['board'] === board && line['channel'] === channel),
  }
}

describe('puts on standard input', () => {
  it.each(['moss-2', 'nettle-4'])('are done by %s, answered in order, and in the truth', async (board) => {
    const { group, say, signalsOf } = await classOnBench()
    await group.whenTold('ready')
    const refused = group.whenTold('put-refused')
    say({ kind: 'put', board, channel: 'ph', where: 'buffer-4', celsius: 12 })
    say({ kind: 'put', board, channel: 'light', where: 'lamp', lux: 1500 })
    say('')
    say({ kind: 'put', board, channel: 'ph', where: 'lemonade' })
    await refused
    expect(group.told.filter(({ kind }) => String(kind).startsWith('put'))).toEqual([
      {
        ...{ kind: 'put-done', board, channel: 'ph', where: 'buffer-4' },
        text: `${board}: the pH electrode is in buffer 4 at 12 °C, and the thermometer with it.`,
      },
      {
        ...{ kind: 'put-done', board, channel: 'light', where: 'lamp' },
        text: `${board}: the light sensor is beside a reference meter that reads 1500 lx.`,
      },
      { kind: 'put-refused', text: expect.stringContaining('“lemonade”') },
    ])
    const puts = group.truth().filter((line) => line['kind'] === 'put')
    expect(puts).toEqual([
      { kind: 'put', board, channel: 'ph', where: 'buffer-4', celsius: 12, at: expect.any(Number) },
      { kind: 'put', board, channel: 'light', where: 'lamp', lux: 1500, at: expect.any(Number) },
    ])

    const since = (channel: string) =>
      signalsOf(board, channel).filter((line) => Number(line['t']) > Number(puts[0]?.['at']))
    await expect.poll(() => since('ph').length, { timeout: 15_000 }).toBeGreaterThan(14)
    for (const line of since('ph')) expect(line).toMatchObject({ truth: 4, quadrat: null, fault: null })
    for (const line of since('temperature')) expect(line).toMatchObject({ truth: 12, quadrat: null })
    expect(since('wind')[0]).toMatchObject({ quadrat: board === 'moss-2' ? 'Q2' : 'Q4' })
    // settled after 14 readings, 4 s apart
    const { boards, calibrations } = group.truth()[0] as {
      boards: { name: string; quadrat: string }[]
      calibrations: Record<string, { electrode: { offsetMillivolt: number; slopeShare: number } }>
    }
    const quadrat = boards.find(({ name }) => name === board)!.quadrat
    const { offsetMillivolt, slopeShare } = calibrations[quadrat]!.electrode
    const expected = offsetMillivolt + slopeShare * 0.198421 * 285.15 * 3
    expect(Math.abs(Number(since('ph')[14]?.['signal']) - expected)).toBeLessThan(1)
  })

  it('are answered however early they are asked', async () => {
    const { group, say } = await classOnBench()
    const done = group.whenTold('put-done')
    say({ kind: 'put', board: 'fern-1', channel: 'wind', where: 'still' })
    expect(await done).toMatchObject({ board: 'fern-1', channel: 'wind', where: 'still' })
  })
})

describe('a class that begins on the bench', () => {
  it('tells a survey with its boards and probes, nothing calibrated, nothing placed', async () => {
    const { group, signalsOf } = await classOnBench('--bench', '--faults', 'swapped,stale-10,cracked-bulb')
    await group.whenTold('ready')
    const survey = SurveyFile.parse(group.told[0]?.['survey'])
    expect(survey.boards).toHaveLength(8)
    expect(survey.probes).toHaveLength(40)
    expect(survey.calibrations).toEqual([])
    expect(survey.placements).toEqual([])

    await expect.poll(() => signalsOf('moss-2', 'ph').length, { timeout: 15_000 }).toBeGreaterThan(3)
    const first = (channel: string) => signalsOf('moss-2', channel)[0]
    expect(first('ph')).toMatchObject({ truth: 4, quadrat: null })
    expect(first('moisture')).toMatchObject({ truth: 0, quadrat: null })
    expect(first('light')).toMatchObject({ truth: 0, signal: 0, quadrat: null })
    expect(first('temperature')).toMatchObject({ truth: 0, quadrat: null })
    expect(first('wind')).toMatchObject({ truth: 0, signal: 0, quadrat: null })
    expect(group.truth()[0]).toMatchObject({
      faults: ['swapped', 'stale-10', 'cracked-bulb'],
      bench: { ph: { where: 'buffer-7', celsius: 17 }, temperature: { where: 'ice' } },
    })

    const told = () => group.told.filter((line) => line['kind'] === 'fault')
    await expect.poll(() => told().length, { timeout: 15_000 }).toBe(3)
    const faults = told()
    expect(faults.map((line) => [line['fault'], line['board'] === null])).toEqual([
      ['cracked-bulb', false],
      ['swapped', true],
      ['stale-10', true],
    ])
    const cracked = String(faults[0]?.['board'])
    expect(faults[0]?.['text']).toBe(`${cracked} has a pH electrode whose bulb is cracked`)
  })
})
