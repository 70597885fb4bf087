const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
}

/** Text within XML 1.0: what marks up is escaped, and control characters, which it cannot hold, become spaces. */
export function xmlText(text: string): string {
  return text.replace(/[^\P{Cc}\t\n\r]/gu, ' ').replace(/[&<>"']/g, (sign) => ENTITIES[sign]!)
}
