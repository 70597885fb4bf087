/** What one look of the doctor comes to. `remedy` says what to do; empty when nothing need be done. */
export interface Finding {
  what: string
  state: 'ok' | 'warning' | 'wrong'
  said: string
  remedy: string
}

export const ok = (what: string, said: string): Finding => ({ what, state: 'ok', said, remedy: '' })
export const warning = (what: string, said: string, remedy: string): Finding => ({
  what,
  state: 'warning',
  said,
  remedy,
})
export const wrong = (what: string, said: string, remedy: string): Finding => ({
  what,
  state: 'wrong',
  said,
  remedy,
})
