/**
 * A file name that is safe on every system: ASCII letters, digits, dot, dash and underscore, never a path, never hidden.
 * @param parts  joined by dashes; what is left out of them becomes a dash
 */
export function downloadName(parts: readonly string[], extension: string): string {
  const name = parts
    .map((part) =>
      part
        .normalize('NFKD')
        .replace(/\p{M}/gu, '')
        .replace(/[^A-Za-z0-9_-]+/g, '-')
        .replace(/^-+|-+$/g, ''),
    )
    .filter((part) => part !== '')
    .join('-')
    .slice(0, 100)
  return `${name || 'survey'}.${extension}`
}
