import { nineOClock } from './example-survey.ts'
import { SmallHub } from './small-hub.ts'

/**
 * Fills a data folder with numbered messages of a pH electrode and a thermometer on the board `sedge-1`, one a second.
 * @returns how many readings they are
 */
export function fillFolder(folder: string, messages: number): number {
  const hub = new SmallHub(folder)
  const BATCH = 1000
  for (let from = 1; from <= messages; from += BATCH) {
    const packs = Array.from({ length: Math.min(BATCH, messages - from + 1) }, (_, place) => {
      const number = from + place
      return [
        { bn: 'sedge-1/', n: 'startup', v: 1 },
        { n: 'message', v: number },
        { n: 'ph', u: 'mV', v: 80 + (number % 40), t: nineOClock / 1000 + number },
        { n: 'temperature', u: 'Cel', v: 10 + (number % 90) / 10, t: nineOClock / 1000 + number },
      ]
    })
    hub.send(nineOClock + (from + BATCH) * 1000, ...packs)
  }
  hub.close()
  return messages * 2
}
