import { attenuatedSignal } from './attenuated-signal.ts'
import { cupsStill } from './cups-still.ts'
import { flatLine } from './flat-line.ts'
import { fullScale } from './full-scale.ts'
import { gap } from './gap.ts'
import { moistureOutOfSoil } from './moisture-out-of-soil.ts'
import { nightLight } from './night-light.ts'
import { phElectrodeDry } from './ph-electrode-dry.ts'
import { phElectrodeOpen } from './ph-electrode-open.ts'
import type { QualityTest } from './quality-test.ts'
import { range } from './range.ts'
import { rateOfChange } from './rate-of-change.ts'
import { seasonalSpan } from './seasonal-span.ts'
import { selfHeating } from './self-heating.ts'
import { sensorRail } from './sensor-rail.ts'
import { spike } from './spike.ts'
import { switchBounce } from './switch-bounce.ts'
import { thermometerCode } from './thermometer-code.ts'
import { unlikeNeighbours } from './unlike-neighbours.ts'

/** A config is only ever one that the same test's own schema has read; nobody else can make one. */
function listed<Config>(test: QualityTest<Config>): QualityTest<never> {
  return test as unknown as QualityTest<never>
}

/**
 * All tests, those of every quantity first. No name is that of a remark of a calibration curve: what a curve remarked on
 * arrival is never replaced by a test of series.
 */
export const QUALITY_TESTS: readonly QualityTest<never>[] = [
  listed(range),
  listed(seasonalSpan),
  listed(spike),
  listed(rateOfChange),
  listed(flatLine),
  listed(attenuatedSignal),
  listed(gap),
  listed(unlikeNeighbours),
  listed(fullScale),
  listed(nightLight),
  listed(phElectrodeOpen),
  listed(phElectrodeDry),
  listed(moistureOutOfSoil),
  listed(cupsStill),
  listed(switchBounce),
  listed(sensorRail),
  listed(thermometerCode),
  listed(selfHeating),
]

const byName = new Map(QUALITY_TESTS.map((test) => [test.name, test]))

export function testNamed(name: string): QualityTest<never> | undefined {
  return byName.get(name)
}
