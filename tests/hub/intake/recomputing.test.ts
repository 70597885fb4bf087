import { setImmediate as nextTurn } from 'node:timers/promises'
import { expect, test } from 'vitest'
import { appraiseWith } from '../../../hub/intake/appraise.ts'
import { Recomputing } from '../../../hub/intake/recomputing.ts'
import { reviewWith } from '../../../hub/quality/review.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

function working(isIntakeBehind = () => false, isIntakeBusy = false) {
  const folder = temporaryFolder()
  const hub = new SmallHub(folder)
  const told: string[] = []
  const recomputing = new Recomputing(
    hub.writer,
    folder,
    () => appraiseWith(hub.keeper.timelines),
    () => reviewWith(hub.keeper.timelines),
    () => hub.keeper.clockWork,
    {
      isIntakeBehind,
      isIntakeBusy: () => isIntakeBusy,
      moved: () => {},
      finished: () => told.push('finished'),
      trouble: (text) => told.push(text),
    },
  )
  const rest = async () => {
    for (let turn = 0; turn < 50; turn++) await nextTurn()
  }
  return { hub, recomputing, told, rest }
}

const warm = (hub: SmallHub, second: number, celsius: number) =>
  hub.send(nineOClock + second * 1000, [{ n: 'sedge-1/temperature', u: 'Cel', v: celsius }])

test.each([
  ['while nobody sends', false],
  ['in smaller steps while boards do', true],
])('%s, what a change makes due is worked off, is announced meanwhile, and ends', async (_when, isBusy) => {
  const { hub, recomputing, told, rest } = working(() => false, isBusy)
  for (let second = 0; second < 5; second++) warm(hub, second, 12)
  hub.keeper.save(exampleSurvey(), 'placed afterwards')
  recomputing.begin()
  expect(recomputing.isGoing).toBe(true)
  await rest()
  expect(recomputing.isGoing).toBe(false)
  expect(told).toEqual(['finished'])
  expect(hub.reader.series(1, 0, 1e14, 10).mean).toEqual(Array(5).fill(11.5))
  recomputing.stop()
  hub.close()
})

test('the routine review of new readings is not announced; when nothing comes out differently, pages are left alone', async () => {
  const { hub, recomputing, told, rest } = working()
  hub.keeper.save(exampleSurvey(), 'test')
  for (let second = 0; second < 5; second++) warm(hub, second, 12)
  hub.writer.seal()
  recomputing.begin(true)
  expect(recomputing.isGoing).toBe(false)
  await rest()
  expect(told).toEqual([])
  warm(hub, 5, -127)
  warm(hub, 6, 12)
  hub.writer.seal()
  recomputing.begin(true)
  await rest()
  expect(told).toEqual(['finished'])
  recomputing.stop()
  hub.close()
})

test('what boards send comes first: while intake is behind nothing is reviewed, but it is not put off for ever', async () => {
  let isBehind = true
  const { hub, recomputing, told, rest } = working(() => isBehind)
  for (let second = 0; second < 5; second++) warm(hub, second, 12)
  hub.keeper.save(exampleSurvey(), 'placed afterwards')
  recomputing.begin()
  await rest()
  expect(told).toEqual([])
  expect(recomputing.isGoing).toBe(true)
  isBehind = false
  await expect.poll(() => told, { timeout: 10_000 }).toEqual(['finished'])
  warm(hub, 5, -127)
  warm(hub, 6, 12)
  hub.writer.seal()
  isBehind = true
  recomputing.begin(true)
  await expect.poll(() => told, { timeout: 30_000 }).toEqual(['finished', 'finished'])
  recomputing.stop()
  hub.close()
})
