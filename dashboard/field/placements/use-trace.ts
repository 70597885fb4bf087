import { useEffect, useState } from 'preact/hooks'
import type { Probe } from '../../../hub/contract/survey.ts'
import { rewritten } from '../../notebook.ts'
import type { TracePoint } from './carried-moment.ts'
import { placementsClient } from './placements-client.ts'
import type { View } from './strip-geometry.ts'

/** What a probe read at some quadrats within a span, in time order, and its unit; null while it is fetched. */
export function useTrace(
  survey: string,
  probe: Probe | undefined,
  quadrats: readonly string[],
  { fromMs, toMs }: View,
): { points: TracePoint[]; unit: string } | null {
  const [trace, setTrace] = useState<{ points: TracePoint[]; unit: string } | null>(null)
  useEffect(() => {
    if (!probe) return
    let isCurrent = true
    Promise.all(
      quadrats.map((quadrat) => placementsClient.trace(survey, quadrat, probe.quantity, fromMs, toMs)),
    )
      .then((records) => {
        if (!isCurrent) return
        const own = records.flatMap(({ series }) => series.filter((each) => each.probe === probe.id))
        const points = own.flatMap(({ timeMs, mean }) =>
          timeMs.flatMap((at, index) => {
            const value = mean[index]
            return typeof value === 'number' ? [{ timeMs: at, value }] : []
          }),
        )
        points.sort((one, other) => one.timeMs - other.timeMs)
        setTrace({ points, unit: own[0]?.unit ?? '' })
      })
      .catch(() => {
        if (isCurrent) setTrace({ points: [], unit: '' })
      })
    return () => {
      isCurrent = false
    }
  }, [survey, probe?.id, quadrats.join('\n'), fromMs, toMs, rewritten.value])
  return trace
}
