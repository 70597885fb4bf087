import type { BoardKeys } from './access/board-keys.ts'
import type { BackupSchedule } from './backup/backup-schedule.ts'
import { quantityFacts } from './contract/quantity-facts.ts'

import type { AddSpot, Spot } from './contract/spot.ts'
import type { SurveyFile } from './contract/survey.ts'
import { HubError } from './errors.ts'
import type { Desk } from './http/desk.ts'
import { typedFrame } from './intake/typed-frame.ts'
import type { RehearsalSetting, RunningClass } from './rehearse.ts'
import type { KeptPorts } from './sources/kept-ports.ts'
import type { Receive } from './sources/source.ts'
import type { SheetTable } from './store/sheet-table.ts'
import { pictureRefused } from './study/species/sheet-kind.ts'
import {
  addCalibration,
  addCheck,
  addDecision,
  placeProbe,
  setDrift,
  setProbeRole,
  takeBackDecision,
  withdrawCalibration,
  withdrawProbe,
} from './survey/change-survey.ts'
import { addClockCorrection, removeClockCorrection } from './survey/clock-corrections.ts'
import { checkTrap, setTrap, undoTrap } from './survey/field/change-traps.ts'
import type { SurveyKeeper } from './survey/keep-surveys.ts'
import {
  amendPlacement,
  askFirst,
  beginsToChange,
  placementQuestions,
  probeToPlace,
} from './survey/placements.ts'
import { keepPlan, planChanges } from './survey/plan/keep-plan.ts'
import { amendSpot, isSameCapture, receiveSpot } from './survey/receive-spot.ts'

/** What the desk needs of the hub to answer the page. */
export interface DeskParts {
  keeper: SurveyKeeper
  sheets: SheetTable
  /** null: the hub was started without a place for them */
  backups: BackupSchedule | null
  keys: BoardKeys
  ports: KeptPorts
  nowMs: () => number
  /** after the surveys changed: use them, tell the pages, recompute */
  surveysChanged(): void
  /** after spot readings changed: use them, tell the pages */
  spotsChanged(): void
  receive: Receive
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
  /** spot readings whose typed values are being stored */
  const underWay = new Map<string, { spot: Spot; done: Promise<boolean> }>()
  const questionsAbout = (after: SurveyFile, probe: string, fromMs: number) =>
    placementQuestions(
      after,
      keeper.timelines.surveys.filter(({ id }) => id !== after.id),
      probe,
      fromMs,
    )
  return {
    saveSurvey: async (survey, why) => {
      if (keeper.save(survey, why)) parts.surveysChanged()
    },
    keepPlan: async (survey, plan) => {
      const before = keeper.named(survey)
      const measured = keeper.timelines.spots.filter((spot) => spot.survey === survey)
      const labels = measured.map(({ quadrat }) => quadrat)
      const after = keepPlan(before, plan, labels, parts.nowMs())
      const changes = planChanges(before, after)
      await change(survey, 'changed the plan', () => after)
      return changes
    },
    placeProbe: (survey, placing) => {
      const probe = probeToPlace(placing)
      const what = placing.quadrat === null ? `lifted ${probe}` : `placed ${probe} at ${placing.quadrat}`
      const why = placing.reason === undefined ? what : `${what}: ${placing.reason}`
      return change(survey, why, (before) => {
        const after = placeProbe(before, placing)
        askFirst(questionsAbout(after, probe, Date.parse(placing.from)), placing.isSure)
        return after
      })
    },
    amendPlacement: (survey, wish) =>
      change(survey, `corrected a placement of ${wish.probe}: ${wish.reason}`, (before) => {
        const after = amendPlacement(before, wish)
        askFirst(
          questionsAbout(after, wish.probe, Date.parse(beginsToChange(wish))),
          wish.isSure || wish.remove,
        )
        return after
      }),
    addSpot: async (survey, sent) => {
      const kept = keeper.timelines.spots.find(({ id }) => id === sent.id)
      if (kept) {
        if (!isSameCapture(kept, sent))
          throw new HubError('E_SPOT_ID', `Another spot reading has the id ${sent.id} already.`)
        return false
      }
      // sent again before the first time was answered: it is one capture
      const same = underWay.get(sent.id)
      if (same) return same.done.then(() => false)
      const file = keeper.named(survey)
      const others = [...keeper.timelines.spots, ...[...underWay.values()].map((each) => each.spot)]
      const spot = receiveSpot(file, sent, others, parts.nowMs())
      const keep = async () => {
        if (spot.isTyped) await keepTyped(parts, file, spot, sent)
        return keeper.keepSpot(spot)
      }
      const done = keep()
      underWay.set(spot.id, { spot, done })
      const isNew = await done.finally(() => underWay.delete(spot.id))
      if (isNew) parts.spotsChanged()
      return isNew
    },
    amendSpot: async (survey, id, wish) => {
      const spot = keeper.timelines.spots.find((each) => each.id === id && each.survey === survey)
      if (!spot) throw new HubError('E_NOT_FOUND', `Survey "${survey}" has no spot reading ${id}.`)
      keeper.replaceSpot(amendSpot(keeper.named(survey), spot, wish, parts.nowMs()))
      parts.spotsChanged()
    },
    addClockCorrection: async (survey, correction) => {
      let id = ''
      await change(survey, `put the clock of ${correction.board} right`, (before) => {
        const added = addClockCorrection(before, correction, parts.nowMs())
        id = added.id
        return added.survey
      })
      return id
    },
    removeClockCorrection: (survey, correction) =>
      change(survey, `took clock correction ${correction} away`, (before) =>
        removeClockCorrection(before, correction),
      ),
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
    addSheet: async (survey, { kind, name, by, bytes }) => {
      keeper.named(survey)
      if (bytes.length === 0) throw new HubError('E_BODY', `${name} is empty.`)
      const refused = pictureRefused(bytes, name)
      if (refused) throw new HubError('E_BODY', refused.message)
      const id = parts.sheets.add({
        survey,
        kind,
        name,
        by: by ?? null,
        bytes,
        atMs: parts.nowMs(),
        answers: {},
      })
      parts.surveysChanged()
      return id
    },
    answerSheet: async (survey, sheet, answers) => {
      if (!parts.sheets.answer(survey, sheet, answers)) throw noSheet(survey, sheet)
      parts.surveysChanged()
    },
    removeSheet: async (survey, sheet, isRemoved) => {
      if (!parts.sheets.setRemoved(survey, sheet, isRemoved)) throw noSheet(survey, sheet)
      parts.surveysChanged()
    },
    setProbeRole: (survey, probe, role) =>
      change(survey, `said what ${probe} is for`, (before) => setProbeRole(before, probe, role)),
    undo: async (survey) => {
      const undone = keeper.undo(survey)
      parts.surveysChanged()
      return undone
    },
    setTrap: async (survey, trap) => {
      let id = ''
      await change(survey, `${trap.method} set at ${trap.quadrat}`, (before) => {
        const made = setTrap(before, trap)
        id = made.id
        return made.survey
      })
      return id
    },
    checkTrap: (survey, trap, check) =>
      change(survey, `trap ${trap} ${check.isClosed ? 'taken up' : 'looked at'}`, (before) =>
        checkTrap(before, trap, check, parts.nowMs()),
      ),
    undoTrap: async (survey, trap) => {
      let undone = ''
      await change(survey, `last step of trap ${trap} taken back`, (before) => {
        const made = undoTrap(before, trap)
        undone = made.undone
        return made.survey
      })
      return undone
    },
    makeBoardKey: async (board) => {
      const key = parts.keys.make(board, parts.nowMs())
      parts.stateChanged()
      return key
    },
    removeBoardKey: async (board) => {
      if (!parts.keys.remove(board)) throw new HubError('E_NOT_FOUND', `Board "${board}" has no key.`)
      parts.stateChanged()
    },
    makeBackup: async () => {
      if (!parts.backups) throw new HubError('E_BACKUP', 'The hub was started without --backup-to FOLDER.')
      return parts.backups.make()
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

function noSheet(survey: string, sheet: number): HubError {
  return new HubError('E_NOT_FOUND', `Survey "${survey}" has no sheet ${sheet}.`)
}

/** Stores typed values as what any board sends is stored; done once they are durable. */
function keepTyped(parts: DeskParts, survey: SurveyFile, spot: Spot, sent: AddSpot): Promise<void> {
  const probe = survey.probes.find(({ id }) => id === spot.probe)!
  const segment = parts.keeper.timelines.at(probe.board, probe.channel, Date.parse(spot.replicates[0]!.from))
  const unit = segment?.calibration?.fitted.unit ?? quantityFacts(probe.quantity)?.unit ?? ''
  return new Promise((resolve, reject) => {
    parts.receive(typedFrame(spot, sent, probe, unit, parts.nowMs()), (error) =>
      error ? reject(error) : resolve(),
    )
  })
}
