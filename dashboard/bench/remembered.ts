/** Small things this device remembers between visits. A device that remembers nothing works all the same. */
export function recall<T>(key: string, otherwise: T, where: 'device' | 'tab' = 'device'): T {
  try {
    const text = (where === 'device' ? localStorage : sessionStorage).getItem(`tussock bench ${key}`)
    return text === null ? otherwise : (JSON.parse(text) as T)
  } catch {
    return otherwise
  }
}

export function remember(key: string, what: unknown, where: 'device' | 'tab' = 'device'): void {
  try {
    ;(where === 'device' ? localStorage : sessionStorage).setItem(
      `tussock bench ${key}`,
      JSON.stringify(what),
    )
  } catch {
    // full or forbidden: nothing is remembered
  }
}
