import type { Remark } from '../../calibration/index.ts'
import type { FlagReason } from '../contract/flag.ts'

/** Which remarks of a calibration curve make a value suspect or wrong, and in what words. Common practice, no source. */
const grave: Partial<Record<Remark, { flag: 3 | 4; text: string }>> = {
  saturated: { flag: 4, text: 'the light sensor was at its full scale: the true light was at least this' },
  extrapolated: { flag: 3, text: 'the signal lies outside the span of the calibration’s reference points' },
  impossible: { flag: 4, text: 'the calibration gives a value that cannot be' },
  'fault-code': { flag: 4, text: 'the sensor sent its fault code instead of a value' },
  'sensor-open': { flag: 4, text: 'the signal is that of a broken wire' },
  'sensor-shorted': { flag: 4, text: 'the signal is that of a short circuit' },
}

export function testRemarks(remarks: readonly Remark[]): FlagReason[] {
  const reasons: FlagReason[] = []
  for (const remark of remarks) {
    const found = grave[remark]
    if (found) reasons.push({ test: remark, flag: found.flag, text: found.text })
  }
  return reasons
}
