/**
 * Labels that are taken for one another on the ground: 6 and 9 when a card lies upside down, O and 0, I, l and 1, and
 * labels that differ only in capitals or a space.
 * @returns one sentence for each kind that occurs
 */
export function confusableLabels(labels: readonly string[]): string[] {
  const warnings: string[] = []
  const known = new Set(labels)
  const turned = labels.filter((label) => {
    const other = upsideDown(label)
    return other !== label && other > label && known.has(other)
  })
  if (turned.length > 0)
    warnings.push(
      `${turned.map((label) => `${label} and ${upsideDown(label)}`).join(', ')} look alike upside down: the cards underline every label and spell it out.`,
    )
  const groups = new Map<string, string[]>()
  for (const label of labels) {
    const key = looksLike(label)
    groups.set(key, [...(groups.get(key) ?? []), label])
  }
  const alike = [...groups.values()].filter((group) => group.length > 1)
  if (alike.length > 0)
    warnings.push(
      `${alike.map((group) => group.join(' and ')).join(', ')} are easily taken for one another: give one of them another label.`,
    )
  return warnings
}

/** As it is read with the figures upside down: Q6 as Q9; only when the whole number can be turned. */
function upsideDown(label: string): string {
  const figures = /[0-9]+$/.exec(label)?.[0]
  if (figures === undefined || !/^[01689]+$/.test(figures) || !/[69]/.test(figures)) return label
  const turned = [...figures]
    .reverse()
    .map((figure) => (figure === '6' ? '9' : figure === '9' ? '6' : figure))
    .join('')
  return label.slice(0, -figures.length) + turned
}

function looksLike(label: string): string {
  return label.toUpperCase().replace(/\s+/g, '').replaceAll('O', '0').replace(/[IL|]/g, '1')
}
