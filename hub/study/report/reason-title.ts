import { testNamed } from '../../quality/tests.ts'

/** Why a reading was left out, as a person reads it: the title of a test, or the reason itself. */
export function reasonTitle(reason: string): string {
  return testNamed(reason)?.title ?? reason.replaceAll('-', ' ')
}

/** What that means, in a sentence or two; empty where the reason says it already. */
export function reasonExplained(reason: string): string {
  return testNamed(reason)?.explain ?? WHOLE[reason] ?? ''
}

const WHOLE: Readonly<Record<string, string>> = {
  'not at a quadrat':
    'The probe was carried, lifted, or stood beside the quadrats (open sky, mast) at that time.',
  'excluded by hand': 'A person left it out, with a reason: see the decisions below.',
  'spot reading not steady': 'The carried meter had not settled when the value was taken.',
  'no passing calibration': 'There was no calibration that passed, so a signal could not become a value.',
  'no value': 'The signal could not be turned into a value.',
  saturated: 'The sensor was at the end of what it can read; the true value is higher.',
  extrapolated: 'The signal lies outside the points of the calibration.',
}
