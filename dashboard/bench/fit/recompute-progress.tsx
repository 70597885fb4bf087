import { useEffect, useState } from 'preact/hooks'
import { client } from '../../client.ts'
import { numberText } from '../../format.ts'
import { refreshAll } from '../../notebook.ts'

const EVERY_MS = 700
/** The hub may not have begun when it is first asked. */
const LEAST_ASKS = 4

/** How far the hub has come with working stored values out again, until it is done. */
export function RecomputeProgress() {
  const [told, setTold] = useState<{ left: number; total: number } | null>(null)
  const [isDone, setDone] = useState(false)
  useEffect(() => {
    let asks = 0
    let timer: ReturnType<typeof setTimeout>
    const ask = async () => {
      const now = await client.hub().catch(() => null)
      asks++
      if (now) setTold(now.recomputing)
      if (now && !now.isRecomputing && asks >= LEAST_ASKS) {
        setDone(true)
        refreshAll()
      } else timer = setTimeout(() => void ask(), EVERY_MS)
    }
    void ask()
    return () => clearTimeout(timer)
  }, [])
  if (isDone) return <p role="status">All stored values follow it.</p>
  const isCounting = told !== null && told.total > 0
  return (
    <p role="status" class="recompute">
      Stored values are being worked out again
      {isCounting ? `: ${numberText(told.total - told.left, 0)} of ${numberText(told.total, 0)}` : ' …'}
      {isCounting && <progress max={told.total} value={told.total - told.left} />}
    </p>
  )
}
