import { describe, expect, test } from 'vitest'
import { Door } from '../../../../hub/access/door.ts'
import { answerDesk, type DeskParts } from '../../../../hub/answer-desk.ts'
import type { PlanChanges, PlanDrawn } from '../../../../hub/contract/plan-api.ts'
import type { SurveyFile } from '../../../../hub/contract/survey.ts'
import { makeApp } from '../../../../hub/http/app.ts'
import type { PageSide } from '../../../../hub/http/page-side.ts'
import { exampleSurvey, nineOClock } from '../../../support/example-survey.ts'
import { SmallHub } from '../../../support/small-hub.ts'
import { temporaryFolder } from '../../../support/temporary-folder.ts'

function open() {
  const folder = temporaryFolder()
  const hub = new SmallHub(folder)
  hub.keeper.save(exampleSurvey(), 'test')
  const parts = { keeper: hub.keeper, nowMs: () => nineOClock, surveysChanged: () => undefined }
  // only what the routes of plans stand on
  const app = makeApp({
    desk: answerDesk(parts as unknown as DeskParts),
    timelines: () => hub.keeper.timelines,
    nowMs: () => nineOClock,
    door: new Door({ teacher: null, classCode: null }),
    access: { isOnNetwork: false, isSecure: false, hostNames: () => [] },
    facts: { version: '0', isRehearsal: false, speed: 1 },
    pageFolder: folder,
  } as unknown as PageSide)
  const post = async <T>(path: string, body: unknown): Promise<{ status: number; body: T }> => {
    const headers = { 'content-type': 'application/json' }
    const response = await app.request(path, { method: 'POST', headers, body: JSON.stringify(body) })
    return { status: response.status, body: (await response.json()) as T }
  }
  return { hub, post }
}

const nothing = { transects: [], plots: [], plan: [] }
const along = {
  transects: [{ id: 'T1', lengthMetres: 20 }],
  plan: [{ rule: 'along', transect: 'T1', everyMetres: 2 }],
}
const planOf = ({ title, site, transects, quadrats }: SurveyFile) => ({ title, site, transects, quadrats })

describe('POST /api/plan/draw', () => {
  test('lays quadrats, judges the walk and shares among groups, and keeps nothing', async () => {
    const { hub, post } = open()
    const { body } = await post<PlanDrawn>('/api/plan/draw', {
      before: nothing,
      after: along,
      quadrats: [],
      groups: ['G1', 'G2'],
    })
    expect(body.quadrats).toHaveLength(11)
    expect(body.rules).toEqual(new Array(11).fill(0))
    expect(body.walk.warnings).toHaveLength(1)
    expect(body.walk.proposed!.strongest).toBeLessThanOrEqual(0.3)
    expect(body.shares.map(({ group }) => group)).toEqual(['G1', 'G2'])
    expect(hub.keeper.timelines.surveys).toHaveLength(1)
    hub.close()
  })
  test('answers faults at their place: past the tape, twice, zones', async () => {
    const { hub, post } = open()
    const at = (label: string, distanceMetres: number) => ({ label, transect: 'T1', distanceMetres })
    const { body } = await post<PlanDrawn>('/api/plan/draw', {
      before: nothing,
      after: {
        transects: [{ id: 'T1', lengthMetres: 20, zones: [{ name: 'shade', fromMetres: 0, toMetres: 30 }] }],
      },
      quadrats: [at('A', 1), at('A', 2), at('B', 21)],
    })
    expect(body.quadrats).toEqual([])
    expect(body.faults.map(({ path }) => path)).toEqual([
      'transects[0].zones[0]',
      'quadrats[1].label',
      'quadrats[2].distanceMetres',
    ])
    hub.close()
  })
  test('refuses a negative distance with the name of the field', async () => {
    const { hub, post } = open()
    const after = { ...along, plan: [{ ...along.plan[0], firstMetres: -1 }] }
    const { status, body } = await post<{ error: { code: string; message: string } }>('/api/plan/draw', {
      before: nothing,
      after,
      quadrats: [],
    })
    expect(status).toBe(400)
    expect(body.error).toMatchObject({ code: 'E_BODY' })
    expect(body.error.message).toContain('after.plan[0].firstMetres: should be at least 0')
    hub.close()
  })
})

describe('a plan of a kept survey', () => {
  test('is previewed without being kept, then kept, and can be taken back', async () => {
    const { hub, post } = open()
    const before = hub.keeper.named('example')
    const [first, second] = before.quadrats
    const plan = { ...planOf(before), quadrats: [{ ...second, label: 'Q3' }] }
    const preview = await post<PlanChanges>('/api/surveys/example/plan/preview', plan)
    // Q1 has placements in the example, Q2 has none
    expect(preview.body.measured).toEqual(['Q1'])
    expect(preview.body.faults).toEqual([])
    expect(preview.body.changes.slice(0, 3)).toEqual([
      '1 quadrat added: Q3.',
      '1 quadrat removed: Q2.',
      '1 quadrat lifted instead of removed, because something was placed or measured there: Q1.',
    ])
    expect(hub.keeper.named('example')).toEqual(before)
    const kept = await post<{ changes: string[] }>('/api/surveys/example/plan', plan)
    expect(kept.body.changes).toEqual(preview.body.changes)
    const after = hub.keeper.named('example')
    expect(after.quadrats.map(({ label }) => label)).toEqual(['Q3', 'Q1'])
    expect(after.quadrats[1]).toEqual({
      ...first,
      lifted: { at: new Date(nineOClock).toISOString(), reason: 'no longer in the plan' },
    })
    expect(after.placements).toEqual(before.placements)
    expect(hub.keeper.undo('example')).toBe('changed the plan')
    expect(hub.keeper.named('example')).toEqual(before)
    hub.close()
  })
  test('that has faults is refused and changes nothing', async () => {
    const { hub, post } = open()
    const before = hub.keeper.named('example')
    const plan = { ...planOf(before), walk: ['Q9'] }
    const preview = await post<PlanChanges>('/api/surveys/example/plan/preview', plan)
    expect(preview.body.faults).toEqual([{ path: 'walk[0]', message: 'there is no quadrat "Q9"' }])
    expect((await post('/api/surveys/example/plan', plan)).status).toBe(422)
    expect(hub.keeper.named('example')).toEqual(before)
    expect((await post('/api/surveys/nowhere/plan', plan)).status).toBe(404)
    hub.close()
  })
})

describe('POST /api/plan/enough', () => {
  test('gives running means and a sentence', async () => {
    const { hub, post } = open()
    const { body } = await post<{ steps: { mean: number }[]; sentence: string }>('/api/plan/enough', {
      values: [2, 4, 3],
    })
    expect(body.steps.map(({ mean }) => mean)).toEqual([2, 3, 3])
    expect(body.sentence).toContain('the mean still moves')
    hub.close()
  })
})
