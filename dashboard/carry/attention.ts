/** Calls for the hand and the ear: a buzz, a short tone, and a screen that stays awake. Each does without what is missing. */
let audio: AudioContext | null = null

/** A browser lets a page sound only after it was touched; called from a touch. */
export function readyTone(): void {
  try {
    audio ??= new AudioContext()
    void audio.resume().catch(() => undefined)
  } catch {
    audio = null
  }
}

const KEPT_HERTZ = 880
const STEADY_HERTZ = 587
const TONE_SECONDS = 0.16

export function call(what: 'steady' | 'kept', isMuted: boolean): void {
  // a page may not buzz before it was touched
  if (navigator.userActivation?.hasBeenActive ?? true)
    navigator.vibrate?.(what === 'kept' ? [90, 60, 90] : 60)
  if (isMuted || audio?.state !== 'running') return
  const tone = audio.createOscillator()
  const loudness = audio.createGain()
  const now = audio.currentTime
  tone.frequency.value = what === 'kept' ? KEPT_HERTZ : STEADY_HERTZ
  loudness.gain.setValueAtTime(0.2, now)
  loudness.gain.exponentialRampToValueAtTime(0.001, now + TONE_SECONDS)
  tone.connect(loudness).connect(audio.destination)
  tone.start(now)
  tone.stop(now + TONE_SECONDS)
}

/** Keeps the screen on until the function returned is called. Browsers allow it over HTTPS only. */
export function stayAwake(): () => void {
  let lock: WakeLockSentinel | null = null
  let isOver = false
  const ask = () => {
    if (document.hidden || !('wakeLock' in navigator)) return
    navigator.wakeLock
      .request('screen')
      .then((given) => {
        lock = given
        if (isOver) void given.release()
      })
      .catch(() => undefined)
  }
  ask()
  document.addEventListener('visibilitychange', ask)
  return () => {
    isOver = true
    document.removeEventListener('visibilitychange', ask)
    void lock?.release()
  }
}
