import { useEffect, useState } from 'preact/hooks'
import type { ReadingExplained } from '../../../hub/contract/reading.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { channelList, rewritten } from '../../notebook.ts'
import { clocksClient } from './clocks-client.ts'

const AGAIN_MS = 30_000

/** How a board’s newest reading was timed; null: nothing has come from it. */
export interface BoardTime {
  board: string
  newest: Pick<ReadingExplained, 'time' | 'timeOrigin' | 'timeErrorSeconds' | 'timeErrorWhy'> | null
}

/** Boards of a survey with how their newest readings were timed, asked for again now and then; null: not yet told. */
export function useBoardTimes(survey: SurveyFile): BoardTime[] | null {
  const [times, setTimes] = useState<BoardTime[] | null>(null)
  const [round, setRound] = useState(0)
  const boards = boardsOf(survey)
  useEffect(() => {
    const timer = setInterval(() => setRound((count) => count + 1), AGAIN_MS)
    return () => clearInterval(timer)
  }, [])
  const hasChannels = channelList.value.length > 0
  useEffect(() => {
    let isCurrent = true
    void Promise.all(
      boards.map(async (board): Promise<BoardTime> => {
        const id = newestReading(board)
        if (id === null) return { board, newest: null }
        return { board, newest: await clocksClient.reading(id).catch(() => null) }
      }),
    ).then((told) => {
      if (isCurrent) setTimes(told)
    })
    return () => {
      isCurrent = false
    }
  }, [boards.join('\n'), hasChannels, round, rewritten.value])
  return times
}

/** Every board a survey speaks of, once, in order. */
export function boardsOf(survey: Pick<SurveyFile, 'boards' | 'probes'>): string[] {
  return [
    ...new Set([...survey.boards.map(({ name }) => name), ...survey.probes.map(({ board }) => board)]),
  ].sort()
}

function newestReading(board: string): number | null {
  const latest = channelList.value.flatMap((channel) =>
    channel.board === board && channel.latest ? [channel.latest] : [],
  )
  if (latest.length === 0) return null
  return latest.reduce((newest, each) => (each[2] > newest[2] ? each : newest))[0]
}
