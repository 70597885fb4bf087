import type { FactorCaution } from '../../../hub/contract/study.ts'

/** What to do about a caution, for whoever reads it; `rest` is a page of the survey that helps. */
export const cautionAdvice: Readonly<
  Record<FactorCaution['kind'], { what: string; chapter?: 'field' | 'plan'; rest?: string; link?: string }>
> = {
  'different-hours': {
    what: 'Use only the time in which all were logging (the switch below), or a probe that stood still as a reference, and say so in the report.',
    chapter: 'field',
    rest: 'pairing',
    link: 'Open sky and mast',
  },
  'follows-clock': {
    what: 'Look whether a probe that stood still changed as much. Next time visit the quadrats in another order.',
    chapter: 'plan',
    link: 'The walking order',
  },
  'few-quadrats': {
    what: 'Describe what you see in the pictures, and do not conclude from a test. More quadrats help most.',
    chapter: 'plan',
    rest: 'enough',
    link: 'How many are enough?',
  },
  'unlike-methods': {
    what: 'Compare only quadrats measured in the same way. If the way was written down wrongly, correct it where the probe was placed.',
    chapter: 'field',
    rest: 'placements',
    link: 'Placements',
  },
  'different-soil': {
    what: 'Use one calibration for one soil, or compare only quadrats that share one. Calibrate the probes together at the bench.',
  },
}
