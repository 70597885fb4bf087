import type { ProbeReadiness } from '../../../hub/contract/readiness.ts'

export type ReadinessState = ProbeReadiness['state']

/** One shape a state, so that none is told by colour alone. */
export const STATE_SHAPES: Readonly<Record<ReadinessState, string>> = {
  ready: 'M3 8.5 6.5 12 13 4',
  'not checked': 'M8 2.5a5.5 5.5 0 1 0 0 11 5.5 5.5 0 1 0 0-11M8 5v3.5M8 11v.4',
  due: 'M8 2a6 6 0 1 0 0 12A6 6 0 1 0 8 2M8 4.6V8l2.6 2',
  failed: 'M3 3l10 10M13 3 3 13',
  'never calibrated': 'M8 1.5 14.5 8 8 14.5 1.5 8Z',
  withdrawn: 'M2.5 2.5h11v11h-11ZM2.5 13.5l11-11',
}

/** What a probe in this state wants next. */
export const WANTED: Readonly<Record<ReadinessState, 'calibrate' | 'check' | null>> = {
  ready: null,
  'not checked': 'check',
  due: 'calibrate',
  failed: 'calibrate',
  'never calibrated': 'calibrate',
  withdrawn: null,
}

/** The worst first: what needs hands is on top. */
export const STATE_ORDER: readonly ReadinessState[] = [
  'failed',
  'never calibrated',
  'due',
  'not checked',
  'ready',
  'withdrawn',
]

/** `11 of 40 probes may go out: 4 are not checked, 25 never calibrated.` */
export function summaryOf(probes: readonly Pick<ProbeReadiness, 'state' | 'mayGoOut'>[]): string {
  const ready = probes.filter(({ mayGoOut }) => mayGoOut).length
  const rest = STATE_ORDER.flatMap((state) => {
    const count = probes.filter((probe) => probe.state === state && !probe.mayGoOut).length
    return count === 0 ? [] : [`${count} ${state}`]
  })
  const lead = `${ready} of ${probes.length} ${probes.length === 1 ? 'probe' : 'probes'} may go out`
  return rest.length === 0 ? `${lead}.` : `${lead}; ${rest.join(', ')}.`
}
