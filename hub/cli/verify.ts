import { isRefusal } from '../../calibration/index.ts'
import { readVersion } from '../environment.ts'
import { HubError } from '../errors.ts'
import type { BundleVerdict } from '../export/bundle/verdict.ts'
import { verifyBundle } from '../export/bundle/verify-bundle.ts'
import { type Command, printLine, readOptions } from './command.ts'

export const verify: Command = {
  name: 'verify',
  summary: 'Work a study bundle out again and compare every value; exit 1 when anything differs',
  usage: `tussock verify BUNDLE [--json]

BUNDLE is a file of “tussock export bundle”. Its signals are stored in a folder of their own, values, flags, summaries,
join and statistics are worked out again, and each is compared with what the bundle says. Your own data is not touched.`,

  async run(args) {
    const { values, positionals } = readOptions(args, { json: { type: 'boolean', default: false } })
    const [path] = positionals
    if (path === undefined) throw new HubError('E_COMMAND', 'Name the bundle.')
    const verdict = await verifyBundle(path, readVersion())
    if (isRefusal(verdict)) {
      process.stderr.write(`${verdict.code}: ${verdict.message}\n`)
      return 1
    }
    if (values.json) printLine(JSON.stringify(verdict, null, 2))
    else print(verdict)
    return verdict.isAgreed ? 0 : 1
  },
}

function print(verdict: BundleVerdict): void {
  const { survey, madeAt, writtenBy, verifiedBy, remarks, agreed, faults, counts, isAgreed } = verdict
  printLine(`Bundle of survey "${survey}", made ${madeAt} by ${writtenBy}; verified by ${verifiedBy}.`)
  for (const remark of remarks) printLine(`Note: ${remark}`)
  for (const line of agreed) printLine(`  agrees   ${line}`)
  for (const { where, text } of faults) printLine(`  differs  ${where}: ${text}`)
  const total = Object.values(counts).reduce((sum, count) => sum + count, 0)
  if (total > faults.length) printLine(`  … and ${total - faults.length} more.`)
  printLine(isAgreed ? 'Everything agrees.' : `${total} ${total === 1 ? 'difference' : 'differences'}.`)
}
