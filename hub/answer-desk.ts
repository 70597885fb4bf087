import type { SurveyFile } from './contract/survey.ts'
import { HubError } from './errors.ts'
import type { Desk } from './http/desk.ts'
import type { RehearsalSetting, RunningClass } from './rehearse.ts'
import type { KeptPorts } from './sources/kept-ports.ts'
import {
  addCalibration,
  addCheck,
  addDecision,
  placeProbe,
  setDrift,
  takeBackDecision,
  withdrawCalibration,
  withdrawProbe,
} from './survey/change-survey.ts'
import type { SurveyKeeper } from './survey/keep-surveys.ts'

/** What the desk needs of the hub to answer the page. */
export interface DeskParts {
  keeper: SurveyKeeper
  ports: KeptPorts
  nowMs: () => number
  /** after the surveys changed: use them, tell the pages, recompute */
  surveysChanged(): void
  stateChanged(): void
  /** sends words to a board, by whatever way it came last */
  say(board: string, words: string): void
  rehearsal: RehearsalSetting | null
  simulatedClass: () => RunningClass | null
  change(rehearsal: RehearsalSetting | null): void
}

/** The main thread's answers to the page: every change to what is stored passes here. */
export function answerDesk(parts: DeskParts): Desk {
  const { keeper, ports } = parts
  const change = async (
    survey: string,
    why: string,
    of: (before: SurveyFile) => SurveyFile,
  ): Promise<void> => {
    keeper.change(survey, why, of)
    parts.surveysChanged()
  }
  return {
    saveSurvey: async (survey, why) => {
      if (keeper.save(survey, why)) parts.surveysChanged()
    },
    placeProbe: (survey, placing) => {
      const probe = typeof placing.probe === 'string' ? placing.probe : placing.probe.id
      const why = placing.quadrat === null ? `lifted ${probe}` : `placed ${probe} at ${placing.quadrat}`
      return change(survey, why, (before) => placeProbe(before, placing))
    },
    addCalibration: (survey, calibration) =>
      change(survey, `calibrated ${calibration.probe}`, (before) => addCalibration(before, calibration)),
    withdrawCalibration: (survey, calibration, reason) =>
      change(survey, `withdrew calibration ${calibration}`, (before) =>
        withdrawCalibration(before, calibration, reason, parts.nowMs()),
      ),
    addCheck: (survey, check) =>
      change(survey, `checked ${check.probe}`, (before) => addCheck(before, check)),
    setDrift: (survey, asked) => {
      const what = asked.checks.length > 0 ? 'drift corrected' : 'drift no longer corrected'
      return change(survey, `${what} for ${asked.probe}`, (before) => setDrift(before, asked))
    },
    addDecision: async (survey, decision) => {
      let id = ''
      await change(
        survey,
        `${decision.action === 'exclude' ? 'left out' : 'accepted'} readings of ${decision.probe}`,
        (before) => {
          const added = addDecision(before, decision, parts.nowMs())
          id = added.id
          return added.survey
        },
      )
      return id
    },
    takeBackDecision: (survey, decision, by) =>
      change(survey, `took decision ${decision} back`, (before) =>
        takeBackDecision(before, decision, by, parts.nowMs()),
      ),
    setQuality: (survey, quality) =>
      change(survey, 'quality thresholds changed', (before) => ({ ...before, quality })),
    withdrawProbe: (survey, probe, reason) =>
      change(survey, reason === null ? `took ${probe} back into use` : `withdrew ${probe}`, (before) =>
        withdrawProbe(before, probe, reason, parts.nowMs()),
      ),
    undo: async (survey) => {
      const undone = keeper.undo(survey)
      parts.surveysChanged()
      return undone
    },
    openPort: async (port) => {
      ports.open(port)
      parts.stateChanged()
    },
    closePort: async (path) => {
      if (!ports.close(path)) throw new HubError('E_PORT_MISSING', `The hub has no port ${path} open.`)
    },
    askBoard: async (board, words) => {
      parts.say(board, words === 'time' ? `time ${(parts.nowMs() / 1000).toFixed(3)}` : words)
    },
    startRehearsal: async (wish) => {
      if (parts.rehearsal) throw new HubError('E_REHEARSAL', 'A rehearsal is going on already.')
      parts.change({ ...wish, forSeconds: null })
    },
    endRehearsal: async () => {
      if (!parts.rehearsal) throw new HubError('E_REHEARSAL', 'No rehearsal is going on.')
      parts.change(null)
    },
    putProbe: async (wish) => {
      const simulated = parts.simulatedClass()
      if (!simulated)
        throw new HubError('E_REHEARSAL', 'Only a rehearsal has simulated probes to put somewhere.')
      const answer = await simulated.put(wish)
      if (answer.isRefused) throw new HubError('E_BODY', answer.text)
      return answer.text
    },
  }
}
