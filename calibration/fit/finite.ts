/**
 * The path of the first number in plain JSON that is not finite, such as `points[1].millivolt`; null when all are.
 */
export function firstNotFinite(json: unknown, path = ''): string | null {
  if (typeof json === 'number') return Number.isFinite(json) ? null : path
  if (Array.isArray(json)) {
    for (const [index, element] of json.entries()) {
      const found = firstNotFinite(element, `${path}[${index}]`)
      if (found !== null) return found
    }
    return null
  }
  if (typeof json === 'object' && json !== null) {
    for (const [key, element] of Object.entries(json)) {
      const found = firstNotFinite(element, path === '' ? key : `${path}.${key}`)
      if (found !== null) return found
    }
  }
  return null
}
