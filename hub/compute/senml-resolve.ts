import { z } from 'zod'
import { Instant } from '../contract/names.ts'
import { isSenmlRefusal, resolvePack } from '../wire/senml.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

const record = z.object({
  n: z.string(),
  u: z.string().optional(),
  t: number,
  v: number.optional(),
  vs: z.string().optional(),
  vb: z.boolean().optional(),
  vd: z.string().optional(),
  s: number.optional(),
  ut: number.optional(),
  bver: number.optional(),
})

export const senmlResolve = defineComputation({
  name: 'senml-resolve',
  title: 'A SenML pack in resolved form: no base fields, absolute times, in order of time',
  source: 'RFC 8428 (2018), section 4.6',
  units: { receivedAt: 'RFC 3339', 'records.t': 's since 1970, UTC' },
  input: z.object({ pack: z.unknown(), receivedAt: Instant }),
  output: z.object({ records: z.array(record) }),
  run: ({ pack, receivedAt }) => {
    const records = resolvePack(pack, Date.parse(receivedAt) / 1000)
    return isSenmlRefusal(records)
      ? { refused: true, code: 'E_SENML', message: `The pack cannot be resolved: ${records.message}.` }
      : { records }
  },
})
