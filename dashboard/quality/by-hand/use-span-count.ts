import { useEffect, useRef, useState } from 'preact/hooks'
import type { QuadratSeries, TimeSpan } from '../../../hub/contract/reading.ts'
import { client, messageOf } from '../../client.ts'
import { rewritten } from '../../notebook.ts'
import { countInSpan, type SpanCount } from './span-count.ts'

/** A span still being drawn is not asked about. */
const SETTLED_MS = 300
const STEPS = 5000

/**
 * What lies in a span, asked of the hub once the span stands still; null until it is known. While the same span is counted
 * again, because values came out differently, the count before stays.
 */
export function useSpanCount(
  survey: string,
  quadrat: string,
  { probe, quantity }: Pick<QuadratSeries, 'probe' | 'quantity'>,
  span: TimeSpan | null,
): { count: SpanCount | null; trouble: string } {
  const [count, setCount] = useState<SpanCount | null>(null)
  const [trouble, setTrouble] = useState('')
  const fromMs = span?.fromMs
  const toMs = span?.toMs
  const about = JSON.stringify([survey, quadrat, probe, quantity, fromMs, toMs])
  const countedAbout = useRef('')
  useEffect(() => {
    if (countedAbout.current !== about) setCount(null)
    countedAbout.current = about
    setTrouble('')
    if (fromMs === undefined || toMs === undefined) return
    let isCurrent = true
    const series = async (from: number, to: number) => {
      const wish = { from: new Date(from).toISOString(), to: new Date(to).toISOString(), quantity }
      return (await client.series(survey, quadrat, { ...wish, steps: STEPS })).series
    }
    const timer = setTimeout(() => {
      countInSpan(series, probe, fromMs, toMs)
        .then((counted) => {
          if (isCurrent) setCount(counted)
        })
        .catch((error: unknown) => {
          if (isCurrent) setTrouble(messageOf(error))
        })
    }, SETTLED_MS)
    return () => {
      isCurrent = false
      clearTimeout(timer)
    }
  }, [about, rewritten.value])
  return { count, trouble }
}
