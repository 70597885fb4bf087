import type { Plot, SurveyFile } from '../../../hub/contract/survey.ts'
import type { PlanForm } from '../form/plan-form.ts'
import { readPlanForm } from '../form/read-plan-form.ts'

/** Those tapes and plots that can be drawn already, although other fields are not filled in yet. */
export function readGround(form: PlanForm): { transects: SurveyFile['transects']; plots: Plot[] } {
  const { parts } = readPlanForm(form)
  const isKnown = (...metres: number[]) => metres.every((each) => Number.isFinite(each) && each > 0)
  return {
    transects: parts.transects
      .filter(({ lengthMetres, markSpacingMetres }) => isKnown(lengthMetres, markSpacingMetres))
      .map((transect) => ({
        ...withoutUnreadBearing(transect),
        zones: transect.zones.filter(
          ({ fromMetres, toMetres }) => toMetres > fromMetres && toMetres <= transect.lengthMetres,
        ),
      })),
    plots: (parts.plots ?? [])
      .filter(({ widthMetres, heightMetres }) => isKnown(widthMetres, heightMetres))
      .map(withoutUnreadBearing),
  }
}

function withoutUnreadBearing<T extends { bearingDegrees?: number | undefined }>(area: T): T {
  if (area.bearingDegrees === undefined || Number.isFinite(area.bearingDegrees)) return area
  const { bearingDegrees: _unread, ...others } = area
  return others as T
}
