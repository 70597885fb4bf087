import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { SurveyFile } from '../../../hub/contract/survey.ts'
import type { HubError } from '../../../hub/errors.ts'
import { Study } from '../../../hub/study/study.ts'
import { exampleSurvey, nineOClock } from '../../support/example-survey.ts'
import { SmallHub } from '../../support/small-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const PH = 'already-a-value'

/** Ten quadrats of relative light 3…95 %, as a class measured them, and the grass that grew there. */
const LIGHT = [3, 5, 8, 12, 20, 33, 47, 60, 78, 95]
const GRASS = [2, 0, 5, 5, 12, 30, 25, 60, 55, 80]

function tenQuadrats(): SurveyFile {
  const from = new Date(nineOClock - 3_600_000).toISOString()
  const place = (_: number, index: number) => `Q${index + 1}`
  const labels = LIGHT.map(place)
  return SurveyFile.parse({
    ...exampleSurvey(),
    quadrats: labels.map((label, index) => ({ label, transect: 'T1', distanceMetres: index * 2 })),
    probes: labels.map((label) => ({
      id: `L-${label}`,
      quantity: 'relative_light',
      board: 'sedge-1',
      channel: `l-${label}`,
    })),
    placements: labels.map((label) => ({ probe: `L-${label}`, quadrat: label, from })),
    calibrations: labels.map((label) => ({
      id: `c-${label}`,
      probe: `L-${label}`,
      validFrom: from,
      recipe: { kind: PH, unit: '%', standardUncertainty: 1 },
    })),
  })
}

function measured(): { hub: SmallHub; study: () => Study } {
  const hub = new SmallHub(temporaryFolder())
  hub.keeper.save(tenQuadrats(), 'begin')
  for (let second = 0; second < 30; second += 10)
    hub.send(nineOClock + second * 1000, [
      { bn: 'sedge-1/', bt: nineOClock / 1000 + second },
      ...LIGHT.map((percent, index) => ({ n: `l-Q${index + 1}`, u: '%', v: percent })),
    ])
  return { hub, study: () => new Study(hub.reader, hub.keeper.timelines, hub.keeper.named('example')) }
}

const keep = (hub: SmallHub, text: string, answers = {}) =>
  hub.writer.sheets.add({
    survey: 'example',
    kind: 'species',
    name: 'class.csv',
    atMs: nineOClock,
    by: null,
    bytes: Buffer.from(text),
    answers,
  })

test('without a table of species there is nothing to join, and that is said', async () => {
  const { hub, study } = measured()
  const refused = await study()
    .join()
    .catch((error: HubError) => error.code)
  expect(refused).toBe('E_NO_SPECIES')
  expect((await study().statistics()).pairs).toEqual([])
  hub.close()
})

test('is it the light? from readings and a class’s sheet to the coefficient of the worked example', async () => {
  // worked by hand: Σd² = 6.5; tie-corrected 0.960; n = 10 critical 0.648 (published tables of Spearman’s rho)
  const { hub, study } = measured()
  const labels = LIGHT.map((_, index) => ['q1', 'Q 2', 'Quadrat 3', 'Q04', 'Q5 '][index] ?? `Q${index + 1}`)
  keep(hub, `quadrat;grass\n${labels.map((label, index) => `${label};${GRASS[index]}`).join('\n')}\n`, {
    measure: 'cover-percent',
  })
  const { pairs, tests, expectedFalseAlarms } = await study().statistics({ redraws: 200 })
  expect(pairs).toHaveLength(1)
  expect(pairs[0]).toMatchObject({ n: 10, species: 'grass', rho: expect.closeTo(0.96, 3) })
  expect(pairs[0]!.p!).toBeLessThan(0.05)
  expect(pairs[0]!.adjustedP).toBe(pairs[0]!.p)
  expect({ tests, expectedFalseAlarms }).toEqual({ tests: 1, expectedFalseAlarms: 0.05 })
  expect(pairs[0]!.significantShare!).toBeGreaterThan(0.9)
  const joined = await study().join()
  expect(joined.wide.rows).toHaveLength(10)
  expect(joined.unmatched.rows).toEqual([])
  // held back until the class has predicted: no number gives the answer away
  const [held] = (await study().statistics({ isVerdictHeldBack: true })).pairs
  expect(held).toMatchObject({ rho: null, p: null, result: null, verdict: null })
  hub.close()
})

test('a newer sheet takes the place of an older one, and leaving it out brings the older one back', async () => {
  const { hub, study } = measured()
  keep(hub, 'quadrat,grass\nQ1,10\nQ2,20\n')
  const newer = keep(hub, 'quadrat,moss\nQ1,10\nQ2,20\n')
  const taxa = async () => (await study().species())?.table.taxa.map(({ name }) => name)
  expect(await taxa()).toEqual(['moss'])
  hub.writer.sheets.setRemoved('example', newer, true)
  expect(await taxa()).toEqual(['grass'])
  expect((await study().sheets()).map(({ isRemoved }) => isRemoved)).toEqual([true, false])
  hub.close()
})

test('a file that is no sheet is kept, and said to be unreadable', async () => {
  const { hub, study } = measured()
  hub.writer.sheets.add({
    survey: 'example',
    kind: 'species',
    name: 'photo.png',
    atMs: nineOClock,
    by: null,
    bytes: readFileSync(new URL('../../../dashboard/index.html', import.meta.url)).subarray(0, 0),
    answers: {},
  })
  const [sheet] = await study().sheets()
  expect(sheet).toMatchObject({ table: null, trouble: expect.stringContaining('photo.png') })
  hub.close()
})
