import { type LightSource, LUX_PER_PPFD } from '../references/lux-per-ppfd.ts'
import { type Refusal, refuse } from '../refusal.ts'

export interface PpfdEstimate {
  ppfdMicromolPerM2S: number
  /** what it would be if the light were of any other kind in the same paper */
  lowMicromolPerM2S: number
  highMicromolPerM2S: number
  /** always: lux weigh the light by the eye, plants do not; under leaves the spectrum shifts and this does not hold */
  isIndicativeOnly: true
}

/**
 * Illuminance to photosynthetic photon flux density, µmol m⁻² s⁻¹: an estimate for open light of a known kind.
 * @param lux  0 or more
 * @see Thimijan & Heins 1983, HortScience 18(6), 818–822
 * @example 108 000 lx of sun and sky is about 2000
 */
export function estimatePpfd(lux: number, source: LightSource = 'sun_and_sky'): PpfdEstimate | Refusal {
  if (!Number.isFinite(lux) || lux < 0) return refuse('E_SETTING', `${lux} lx cannot be; light is 0 or more.`)
  const factor = LUX_PER_PPFD[source]
  if (factor === undefined) {
    return refuse(
      'E_SETTING',
      `No light source “${source}”; known are ${Object.keys(LUX_PER_PPFD).join(', ')}.`,
    )
  }
  const all = Object.values(LUX_PER_PPFD)
  return {
    ppfdMicromolPerM2S: lux / factor,
    lowMicromolPerM2S: lux / Math.max(...all),
    highMicromolPerM2S: lux / Math.min(...all),
    isIndicativeOnly: true,
  }
}
