import { useEffect, useRef, useState } from 'preact/hooks'
import { messageOf } from '../client.ts'
import { rewritten, spotsChanged, surveyKept } from '../notebook.ts'

const AGAIN_MS = 5000

/**
 * An answer of the hub about a survey that is kept true: asked for again every few seconds, and at once when the survey,
 * its spot readings or stored values change. What was answered last stays while the hub is away.
 * @param ask  another function is another question
 */
export function useAnswer<T>(survey: string, ask: () => Promise<T>, again: readonly unknown[] = []) {
  const [answer, setAnswer] = useState<T | null>(null)
  const [trouble, setTrouble] = useState('')
  const newest = useRef(0)
  const kept = surveyKept(survey).value
  const fetchNow = () => {
    const turn = ++newest.current
    ask()
      .then((told) => {
        if (turn !== newest.current) return
        setAnswer(told)
        setTrouble('')
      })
      .catch((error: unknown) => {
        if (turn === newest.current) setTrouble(messageOf(error))
      })
  }
  useEffect(() => {
    fetchNow()
    const timer = setInterval(fetchNow, AGAIN_MS)
    return () => clearInterval(timer)
  }, [survey, kept, spotsChanged.value, rewritten.value, ...again])
  return { answer, trouble, fetchNow }
}
