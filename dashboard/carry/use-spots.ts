import { useEffect, useState } from 'preact/hooks'
import type { SpotValue } from '../../hub/contract/spot.ts'
import { connection } from '../live.ts'
import { rewritten, spotsChanged } from '../notebook.ts'
import { carryClient } from './carry-client.ts'

/** Spot readings of a survey with their values, as the hub works them out; null until it has answered. */
export function useSpots(survey: string): readonly SpotValue[] | null {
  const [spots, setSpots] = useState<readonly SpotValue[] | null>(null)
  const isLive = connection.value === 'live'
  const turn = spotsChanged.value + rewritten.value
  useEffect(() => {
    let isOld = false
    carryClient
      .spots(survey)
      .then((answer) => {
        if (!isOld) setSpots(answer)
      })
      // what is on the page stays there while the hub is away; the banner says so
      .catch(() => undefined)
    return () => {
      isOld = true
    }
  }, [survey, turn, isLive])
  return spots
}
