import type { Completeness, Leave } from '../../contract/field.ts'
import type { ProbeReadiness } from '../../contract/readiness.ts'
import type { SpotValue } from '../../contract/spot.ts'
import type { SurveyFile } from '../../contract/survey.ts'

const NAMED_AT_MOST = 8

/** What is easily forgotten on leaving, and does not keep the class there. */
export function leaveReminders(
  survey: SurveyFile,
  completeness: Completeness,
  spots: readonly SpotValue[],
  readiness: readonly ProbeReadiness[],
): Leave['reminders'] {
  const used = new Set([
    ...survey.placements.flatMap(({ probe, quadrat }) => (quadrat === null ? [] : [probe])),
    ...spots.map(({ spot }) => spot.probe),
  ])
  const out = survey.probes.filter(({ id, isTyped, withdrawn }) => used.has(id) && !isTyped && !withdrawn)
  const reminders: Leave['reminders'] = []
  if (out.length > 0) {
    const boards = new Set(out.map(({ board }) => board)).size
    reminders.push({
      kind: 'count',
      words: `Count them in: ${boards} ${boards === 1 ? 'board' : 'boards'} with ${out.length} ${out.length === 1 ? 'probe' : 'probes'} went out. Leave nothing behind.`,
    })
  }
  const typed = new Set(survey.probes.filter(({ isTyped }) => isTyped).map(({ id }) => id))
  const ready = readiness.filter(({ probe }) => used.has(probe) && !typed.has(probe))
  const unchecked = ready.filter((probe) => probe.calibration !== null && !isCheckedAfter(probe))
  if (unchecked.length > 0)
    reminders.push({
      kind: 'check',
      words: `Not checked after fieldwork yet: ${namesOf(unchecked)}. Read each in a known reference without adjusting it, today.`,
    })
  const due = ready.filter(({ state }) => state === 'due')
  if (due.length > 0)
    reminders.push({
      kind: 'calibration',
      words: `Calibrated longer ago than is trusted: ${namesOf(due)}. The check afterwards says whether they have drifted.`,
    })
  if (!completeness.isWantedGiven)
    reminders.push({
      kind: 'wanted',
      words:
        'The survey does not say what is wanted at each quadrat, so this was read off its probes and spot readings.',
    })
  return reminders
}

function isCheckedAfter({ checks, calibratedAt }: ProbeReadiness): boolean {
  return checks.some(({ when, at }) => when === 'after' && Date.parse(at) >= Date.parse(calibratedAt ?? at))
}

function namesOf(probes: readonly ProbeReadiness[]): string {
  const named = probes.slice(0, NAMED_AT_MOST).map(({ probe }) => probe)
  const more = probes.length - named.length
  return more > 0 ? `${named.join(', ')} and ${more} more` : named.join(', ')
}
