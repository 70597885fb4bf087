import { signal } from '@preact/signals'
import type { QualityTestListed } from '../../hub/contract/quality.ts'
import { client } from '../client.ts'

/** The hub's quality tests in words; null until they are asked for and have come. They stay the same while it runs. */
export const qualityTests = signal<QualityTestListed[] | null>(null)
let asked: Promise<void> | null = null

/** @returns when they are there; fails when the hub does not answer, and may be called again then */
export function readQualityTests(): Promise<void> {
  asked ??= client
    .qualityTests()
    .then(({ tests }) => {
      qualityTests.value = tests
    })
    .catch((error: unknown) => {
      asked = null
      throw error
    })
  return asked
}
