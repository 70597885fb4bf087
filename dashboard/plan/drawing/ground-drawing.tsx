import { isInPlot, isOnTransect } from '../../../hub/contract/quadrat-place.ts'

import { useWidth } from '../../parts/use-width.ts'
import type { PlanDraft } from '../use-plan-draft.ts'
import { PlotDrawing } from './plot-drawing.tsx'
import { readGround } from './read-ground.ts'
import { TapeDrawing } from './tape-drawing.tsx'

/** All tapes and plots of a plan, to scale as typed, one under the other. */
export function GroundDrawing({ draft, chosen }: { draft: PlanDraft; chosen: string | null }) {
  const [ref, width] = useWidth<HTMLDivElement>()
  const { transects, plots } = readGround(draft.form)
  const walk = draft.drawn?.walk.planned.labels ?? []
  const shared = { walk, width, chosen }
  return (
    <div class="plan-ground-drawing" ref={ref}>
      {width > 0 &&
        transects.map((transect) => (
          <TapeDrawing
            key={transect.id}
            transect={transect}
            quadrats={draft.quadrats.filter(isOnTransect).filter((each) => each.transect === transect.id)}
            {...shared}
          />
        ))}
      {width > 0 &&
        plots.map((plot) => (
          <PlotDrawing
            key={plot.id}
            plot={plot}
            quadrats={draft.quadrats.filter(isInPlot).filter((each) => each.plot === plot.id)}
            rejected={draft.form.plan
              .filter((rule) => ['random', 'stratified'].includes(rule.rule) && rule.plot === plot.id)
              .flatMap((rule) => rule.rejected)}
            {...shared}
          />
        ))}
    </div>
  )
}
