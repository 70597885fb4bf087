import { signal } from '@preact/signals'

const KEPT_AS = 'tussock trap sound'
const EVERY_MS = 20_000
const TONES_HERTZ = [880, 660, 880]
const TONE_SECONDS = 0.22

/** A person has asked this device to sound while a trap with animals is overdue. */
export const isSounding = signal(readKept())
/** The browser holds the sound back until the page is touched. */
export const mayNotSound = signal(false)

let context: AudioContext | null = null

export function setSounding(isOn: boolean): void {
  isSounding.value = isOn
  try {
    localStorage.setItem(KEPT_AS, isOn ? 'on' : 'off')
  } catch {
    // forbidden: it is asked for again next time
  }
}

function readKept(): boolean {
  try {
    return localStorage.getItem(KEPT_AS) === 'on'
  } catch {
    return false
  }
}

/** Sounds at once and every twenty seconds while asked for and needed, until the function returned is called. */
export function soundWhile(isNeeded: boolean): () => void {
  if (!isNeeded || !isSounding.peek()) return () => undefined
  void sound()
  const timer = setInterval(() => void sound(), EVERY_MS)
  return () => clearInterval(timer)
}

async function sound(): Promise<void> {
  try {
    context ??= new AudioContext()
    await context.resume()
  } catch {
    // a device without sound: the banner says it all the same
  }
  mayNotSound.value = context?.state !== 'running'
  if (context?.state !== 'running') return
  for (const [index, hertz] of TONES_HERTZ.entries()) {
    const tone = context.createOscillator()
    const loudness = context.createGain()
    loudness.gain.value = 0.25
    tone.frequency.value = hertz
    tone.connect(loudness).connect(context.destination)
    const start = context.currentTime + index * TONE_SECONDS * 1.3
    tone.start(start)
    tone.stop(start + TONE_SECONDS)
  }
}
