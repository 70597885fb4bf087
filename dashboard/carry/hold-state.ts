/** Nothing new for this long, and what is on the screen is not what the meter reads now. Common practice, no source. */
export const QUIET_MS = 60_000
/** Long enough to lift a meter out and put it in again. Common practice, no source. */
const AGAIN_AFTER_SECONDS = 20

/** What the one button does now. */
export interface HoldState {
  /** `marked`: it still moves after a long time, and is kept as not steady */
  may: 'keep' | 'marked' | 'wait'
  /** kept without a touch */
  keepsItself: boolean
  /** it would keep by itself, and waits until the meter has been put in again */
  waitsForMove: boolean
}

/**
 * Whether an insertion may be kept.
 * @param quietMs  since the last reading arrived
 * @param heldSeconds  since the insertion before was kept, or the quadrat opened
 */
export function holdState(at: {
  isSteady: boolean
  hasWindow: boolean
  hasMoved: boolean
  isAutomatic: boolean
  heldSeconds: number
  patienceSeconds: number
  quietMs: number
}): HoldState {
  if (!at.hasWindow || at.quietMs > QUIET_MS) return { may: 'wait', keepsItself: false, waitsForMove: false }
  if (!at.isSteady)
    return {
      may: at.heldSeconds > at.patienceSeconds ? 'marked' : 'wait',
      keepsItself: false,
      waitsForMove: false,
    }
  const isPutIn = at.hasMoved || at.heldSeconds > AGAIN_AFTER_SECONDS
  return {
    may: 'keep',
    keepsItself: at.isAutomatic && isPutIn,
    waitsForMove: at.isAutomatic && !isPutIn,
  }
}
