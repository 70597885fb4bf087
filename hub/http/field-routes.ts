import type { Completeness } from '../contract/field.ts'
import * as api from '../contract/field-api.ts'
import type { ProbeReadiness } from '../contract/readiness.ts'
import type { SurveyFile } from '../contract/survey.ts'
import type { TrapNow, TrapWatched } from '../contract/trap.ts'
import { HubError } from '../errors.ts'
import { testStorage } from '../store/test-storage.ts'
import { type CompletenessFacts, completenessOf } from '../survey/field/completeness.ts'
import { departureOf } from '../survey/field/departure.ts'
import { leaveReminders } from '../survey/field/leave-reminders.ts'
import { safeToLeave } from '../survey/field/safe-to-leave.ts'
import { silentBoards } from '../survey/field/silent-boards.ts'
import { byUrgency } from '../survey/field/trap-now.ts'
import { readinessOf } from '../survey/readiness.ts'
import { boardFacts, completenessFacts, heardNow, lastHeard, trapsNow, weatherOf } from './field-facts.ts'
import { type HubApp, keepFor, type PageSide, surveyNamed } from './page-side.ts'

/** Thirty phones watch the page “safe to leave”: all are given what was reckoned within this time. */
const KEPT_MS = 1500
/** …and of a survey of weeks, whose counting takes long, for so many times what it took: other pages must not wait. */
const REST_OF_TIME = 20
/** The storage test writes to the disk, and SD cards wear. */
const STORAGE_KEPT_MS = 10_000

interface FieldNow {
  survey: SurveyFile
  heard: ReturnType<typeof heardNow>
  facts: CompletenessFacts
  completeness: Completeness
  readiness: ProbeReadiness[]
  traps: TrapNow[]
}

/** Completeness, whether the class may go, whether it may set out, and traps with their clocks. */
export function routeField(app: HubApp, side: PageSide): void {
  const kept = new Map<string, { of: unknown; untilMs: number; now: FieldNow }>()
  const fieldNow = (id: string): FieldNow => {
    const survey = surveyNamed(side, id)
    const startedMs = performance.now()
    const before = kept.get(id)
    if (before && before.of === side.timelines() && startedMs < before.untilMs) return before.now
    const heard = heardNow(side)
    const facts = completenessFacts(side, survey, heard)
    const now = {
      survey,
      heard,
      facts,
      completeness: completenessOf(facts),
      readiness: readinessOf(survey, facts.nowMs),
      traps: trapsNow(side, survey, weatherOf(side, survey, heard)),
    }
    const endedMs = performance.now()
    const untilMs = endedMs + Math.max(KEPT_MS, REST_OF_TIME * (endedMs - startedMs))
    kept.set(id, { of: side.timelines(), untilMs, now })
    return now
  }
  const storage = keepFor(
    STORAGE_KEPT_MS,
    () => side.reader,
    () => testStorage(side.reader.folder),
  )

  app.openapi(api.getCompleteness, (c) => c.json(fieldNow(c.req.valid('param').survey).completeness, 200))

  app.openapi(api.getLeave, (c) => {
    const now = fieldNow(c.req.valid('param').survey)
    const { survey, completeness } = now
    const at = c.req.valid('query').at ?? null
    if (at !== null && !survey.quadrats.some(({ label }) => label === at))
      throw new HubError('E_NOT_FOUND', `Survey "${survey.id}" has no quadrat "${at}".`)
    const leave = safeToLeave({
      survey,
      completeness,
      at,
      silent: silentBoards(survey, side.timelines(), lastHeard(now.heard.boards), completeness.nowMs),
      traps: now.traps,
      reminders: leaveReminders(survey, completeness, now.facts.spots, now.readiness),
    })
    return c.json(leave, 200)
  })

  app.openapi(api.getDeparture, async (c) => {
    const { survey, heard, readiness } = fieldNow(c.req.valid('param').survey)
    const { broker, trouble } = side.state()
    const departure = departureOf({
      survey,
      nowMs: side.nowMs(),
      boards: boardFacts(side, survey, heard),
      readiness: readiness.filter(({ probe }) => !isTyped(survey, probe)),
      storage: await storage(),
      trouble,
      brokerTrouble:
        broker.state === 'gone' ? (broker.trouble ?? 'Its MQTT broker is gone.') : broker.trouble,
    })
    return c.json(departure, 200)
  })

  const watched = keepFor(KEPT_MS, side.timelines, () => watchedTraps(side))
  app.openapi(api.getWatchedTraps, (c) => c.json({ traps: watched() }, 200))

  app.openapi(api.getTraps, (c) => {
    const survey = surveyNamed(side, c.req.valid('param').survey)
    const weather = weatherOf(side, survey, heardNow(side))
    return c.json({ traps: trapsNow(side, survey, weather).sort(byUrgency), weather }, 200)
  })

  app.openapi(api.postTrap, async (c) => {
    const id = await side.desk.setTrap(c.req.valid('param').survey, c.req.valid('json'))
    return c.json({ done: true, id } as const, 200)
  })

  app.openapi(api.postTrapCheck, async (c) => {
    const { survey, trap } = c.req.valid('param')
    await side.desk.checkTrap(survey, trap, c.req.valid('json'))
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postTrapUndo, async (c) => {
    const { survey, trap } = c.req.valid('param')
    const undone = await side.desk.undoTrap(survey, trap)
    return c.json({ done: true, undone } as const, 200)
  })
}

/** Open traps of all surveys. */
function watchedTraps(side: PageSide): TrapWatched[] {
  const surveys = side.timelines().surveys.filter(({ traps }) => traps && traps.length > 0)
  if (surveys.length === 0) return []
  const heard = heardNow(side)
  return surveys
    .flatMap((survey) =>
      trapsNow(side, survey, weatherOf(side, survey, heard)).map((trap) => ({
        ...trap,
        survey: survey.id,
        title: survey.title,
      })),
    )
    .filter(({ state }) => state !== 'closed')
    .sort(byUrgency)
}

function isTyped({ probes }: SurveyFile, id: string): boolean {
  return probes.find((probe) => probe.id === id)?.isTyped === true
}
