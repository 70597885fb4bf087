import { useEffect, useState } from 'preact/hooks'
import type { CheckJudged } from '../../../hub/contract/readiness.ts'
import { client } from '../../client.ts'
import { surveyKept } from '../../notebook.ts'

/** The judged checks of a probe, newest first, fetched anew whenever the survey changes. */
export function useChecks(survey: string, probe: string): [readonly CheckJudged[], () => void] {
  const [checks, setChecks] = useState<readonly CheckJudged[]>([])
  const kept = surveyKept(survey).value
  const fetchThem = () => {
    client
      .readiness(survey)
      .then(({ probes }) =>
        setChecks((probes.find((each) => each.probe === probe)?.checks ?? []).toReversed()),
      )
      // what is listed stays listed while the hub is away
      .catch(() => undefined)
  }
  useEffect(fetchThem, [survey, probe, kept])
  return [checks, fetchThem]
}
