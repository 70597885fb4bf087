import type { Leave } from '../contract/field.ts'

/** The page “safe to leave” as lines of text: the decision, then each quadrat to go to with what is missing there. */
export function leaveReport(leave: Leave): string {
  const lines = [leave.sentence]
  for (const { quadrat, metres, minutes, groups, things } of leave.stops) {
    const way = [
      metres === null ? '' : `${Number(metres.toFixed(1))} m to walk`,
      `about ${Math.max(1, Math.round(minutes))} min`,
      groups.join(', '),
    ].filter((text) => text !== '')
    lines.push(`${quadrat}  (${way.join('; ')})`, ...things.map(({ words }) => `    ${words}`))
  }
  if (leave.elsewhere.length > 0)
    lines.push('at no quadrat', ...leave.elsewhere.map(({ words }) => `    ${words}`))
  for (const { trap, dueMs } of leave.staying)
    lines.push(
      `${trap.method} stays at ${trap.quadrat}${dueMs === null ? '' : `: look at it by ${new Date(dueMs).toISOString()}`}`,
    )
  for (const { words } of leave.reminders) lines.push(words)
  return lines.join('\n')
}
