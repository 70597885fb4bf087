import { isOnTransect } from '../../hub/contract/survey.ts'
import { countText } from '../format.ts'
import { readNumber } from '../quadrat-distances.ts'
import type { SetUpForm } from '../set-up-form.ts'
import { surveyOf } from '../set-up-form.ts'
import { markCount } from '../tape-geometry.ts'
import { TapeWide } from './tape-wide.tsx'
import { useWidth } from './use-width.ts'

/** The plan as it is typed, to scale, and how many marks the tape has. */
export function PlanDrawing({ form }: { form: SetUpForm }) {
  const [ref, width] = useWidth<HTMLDivElement>()
  const length = readNumber(form.lengthMetres) ?? 0
  const spacing = readNumber(form.spacing) ?? 0
  const survey = surveyOf(form, 'plan')
  const transect = survey.transects[0]!
  const canBeDrawn = length > 0 && length <= 10_000 && spacing > 0
  const quadrats = survey.quadrats.filter(isOnTransect).filter((quadrat) => quadrat.distanceMetres <= length)
  const zones = transect.zones.filter(
    ({ fromMetres, toMetres }) => toMetres > fromMetres && fromMetres < length,
  )
  const marks = markCount(length, spacing)
  return (
    <div class="plan" ref={ref}>
      {canBeDrawn && width > 0 && (
        <TapeWide
          transect={{ ...transect, zones }}
          quadrats={quadrats.map((quadrat) => ({
            ...quadrat,
            sideMetres: Number.isFinite(quadrat.sideMetres) ? quadrat.sideMetres : 0.5,
          }))}
          width={width}
          fromX={14}
          toX={width - 18}
          isCompact
        />
      )}
      <p role="status">
        {canBeDrawn
          ? `${countText(marks, 'mark')} (${length} ÷ ${spacing} + 1) and ${countText(quadrats.length, 'quadrat')}.`
          : 'Write the length of the tape and how far its marks are apart.'}
      </p>
    </div>
  )
}
