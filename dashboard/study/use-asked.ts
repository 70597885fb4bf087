import { useEffect, useRef, useState } from 'preact/hooks'
import { messageOf, Refusal } from '../client.ts'
import { rewritten, spotsChanged, surveyKept } from '../notebook.ts'

export interface Trouble {
  /** of the refusal; empty when the hub did not answer */
  code: string
  message: string
}

export interface Asked<T> {
  answer: T | null
  trouble: Trouble | null
  isAsking: boolean
  askAgain: () => void
}

/**
 * An answer of the hub that is costly to make: asked for once, again when the survey, its spot readings or stored values
 * change, and on request. What was answered last stays in sight meanwhile.
 * @param on  what the question rests on besides the survey; another value is another question
 */
export function useAsked<T>(survey: string, ask: () => Promise<T>, on: readonly unknown[] = []): Asked<T> {
  const [answer, setAnswer] = useState<T | null>(null)
  const [trouble, setTrouble] = useState<Trouble | null>(null)
  const [isAsking, setAsking] = useState(true)
  const newest = useRef(0)
  const askAgain = () => {
    const turn = ++newest.current
    setAsking(true)
    ask()
      .then((told) => {
        if (turn !== newest.current) return
        setAnswer(told)
        setTrouble(null)
      })
      .catch((error: unknown) => {
        if (turn !== newest.current) return
        if (error instanceof Refusal && error.code !== '') setAnswer(null)
        setTrouble({ code: error instanceof Refusal ? error.code : '', message: messageOf(error) })
      })
      .finally(() => {
        if (turn === newest.current) setAsking(false)
      })
  }
  useEffect(() => {
    askAgain()
    return () => {
      newest.current++
    }
  }, [survey, surveyKept(survey).value, spotsChanged.value, rewritten.value, ...on])
  return { answer, trouble, isAsking, askAgain }
}
