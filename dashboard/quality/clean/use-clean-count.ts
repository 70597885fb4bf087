import { useEffect, useState } from 'preact/hooks'
import type { CleanCount } from '../../../hub/contract/clean.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { client, messageOf } from '../../client.ts'
import { connection } from '../../live.ts'
import { onReadings, rewritten } from '../../notebook.ts'

/** The hub reads every reading to count them: not oftener than this. */
const EVERY_MS = 10_000

/** How many readings are clean, kept up to date while the page is looked at; null until it is known. */
export function useCleanCount(survey: SurveyFile): { count: CleanCount | null; trouble: string } {
  const [count, setCount] = useState<CleanCount | null>(null)
  const [trouble, setTrouble] = useState('')
  const { id } = survey
  const [wanted] = useState(() => ({ ask: () => {} }))
  useEffect(() => {
    let isCurrent = true
    let isAsking = false
    let isDue = false
    let askedAt = Number.NEGATIVE_INFINITY
    let timer: ReturnType<typeof setTimeout> | undefined
    const ask = () => {
      isDue = true
      // a hub that is away is not asked: the survey is read again when it is back, and this with it
      if (isAsking || timer !== undefined || document.hidden || connection.value === 'lost') return
      timer = setTimeout(
        () => {
          timer = undefined
          if (connection.value !== 'lost') void fetchIt()
        },
        Math.max(0, askedAt + EVERY_MS - performance.now()),
      )
    }
    const fetchIt = async () => {
      isAsking = true
      isDue = false
      try {
        const answer = await client.clean(id)
        if (isCurrent) setCount(answer)
        if (isCurrent) setTrouble('')
      } catch (error) {
        if (isCurrent) setTrouble(messageOf(error))
      }
      // reckoned from the answer, so that a slow hub is not asked all the time
      askedAt = performance.now()
      isAsking = false
      if (isDue && isCurrent) ask()
    }
    const look = () => {
      if (!document.hidden) ask()
    }
    wanted.ask = ask
    document.addEventListener('visibilitychange', look)
    const noMore = onReadings(ask)
    return () => {
      isCurrent = false
      wanted.ask = () => {}
      clearTimeout(timer)
      noMore()
      document.removeEventListener('visibilitychange', look)
    }
  }, [id, wanted])
  useEffect(() => wanted.ask(), [survey, rewritten.value, wanted])
  return { count, trouble }
}
