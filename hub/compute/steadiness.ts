import { z } from 'zod'
import {
  firstSteady,
  judgeSteadiness,
  refuse,
  STEADY_RULES,
  type SteadyRule,
} from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const steadiness = defineComputation({
  name: 'steadiness',
  title: 'Whether a held probe has settled, and at what value',
  source: 'class practice: span of the newest samples; each limit may be edited',
  units: {
    'samples.seconds': 's',
    'samples.value': 'the quantity’s',
    'rule.windowSeconds': 's',
    'rule.span': 'the quantity’s',
    heldAtSeconds: 's',
    heldValue: 'the quantity’s',
  },
  input: z.object({
    samples: z.array(z.object({ seconds: number, value: number })),
    quantity: z.string().optional(),
    rule: z
      .object({
        windowSeconds: number.positive(),
        minimumSamples: number.int().positive(),
        span: number.nonnegative(),
        relativeSpan: number.nonnegative().optional(),
        ratePerMinute: number.nonnegative().optional(),
      })
      .optional(),
  }),
  output: z.object({
    steady: z.boolean(),
    value: number.nullable(),
    span: number.nullable(),
    ratePerMinute: number.nullable(),
    sampleCount: number,
    heldAtSeconds: number.nullable(),
    heldValue: number.nullable(),
  }),
  run({ samples, quantity = 'soil_ph', rule }) {
    const chosen = (rule as SteadyRule | undefined) ?? STEADY_RULES[quantity]
    if (chosen === undefined) {
      const known = Object.keys(STEADY_RULES).join(', ')
      return refuse('E_SETTING', `No rule for “${quantity}”; give one, or use ${known}.`)
    }
    if (samples.some((sample, index) => index > 0 && sample.seconds < samples[index - 1]!.seconds)) {
      return refuse('E_INTERVAL', 'The samples are not in order of time.')
    }
    const held = firstSteady(samples, chosen)
    return {
      ...judgeSteadiness(samples, chosen),
      heldAtSeconds: held?.seconds ?? null,
      heldValue: held?.value ?? null,
    }
  },
})
