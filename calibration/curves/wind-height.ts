import { type Refusal, refuse } from '../refusal.ts'

/** Lowest height the rule is used for, m: well above where its logarithm reaches zero (0.0947 m). */
export const FAO_LOWEST_METRES = 0.1

/**
 * Wind speed over short grass at a height to that at 2 m: u₂ = u_z · 4.87 / ln(67.8 z − 5.42).
 * For open ground only, never inside a wood.
 * @param heightMetres  0.1 m or more; at ground level the rule has no meaning → refusal `E_HEIGHT`
 * @see Allen et al. 1998, FAO Irrigation and Drainage Paper 56, eq. 47, Example 14
 * @example 3.2 m/s at 10 m is 2.4 m/s at 2 m
 */
export function windAtTwoMetres(metresPerSecond: number, heightMetres: number): number | Refusal {
  const bad = refuseSpeed(metresPerSecond)
  if (bad !== null) return bad
  if (!(heightMetres >= FAO_LOWEST_METRES) || !Number.isFinite(heightMetres)) {
    return refuse(
      'E_HEIGHT',
      `The height is ${heightMetres} m; the rule holds from ${FAO_LOWEST_METRES} m upwards.`,
    )
  }
  return (metresPerSecond * 4.87) / Math.log(67.8 * heightMetres - 5.42)
}

/** The logarithmic wind profile's heights and ground. */
export interface LogProfile {
  fromMetres: number
  toMetres: number
  /** roughness length, m: 0.03 open grass, 0.1 crops, 0.5 bushes */
  roughnessMetres?: number
  /** zero-plane displacement, m: about two thirds of the height of the plants */
  displacementMetres?: number
}

/** Roughness length of open, flat grass, m (WMO-No. 8 Part I ch. 5 annex, from memory). */
export const GRASS_ROUGHNESS_METRES = 0.03

/**
 * Wind speed at one height to another by the logarithmic profile of a neutral atmosphere over open ground.
 * u(z₂) = u(z₁) · ln((z₂ − d)/z₀) / ln((z₁ − d)/z₀)
 * @returns a refusal unless both heights are above d + z₀
 * @see WMO-No. 8, Part I ch. 5, exposure correction; Allen et al. 1998 ch. 3 for the same law behind eq. 47
 */
export function windByLogProfile(metresPerSecond: number, profile: LogProfile): number | Refusal {
  const bad = refuseSpeed(metresPerSecond)
  if (bad !== null) return bad
  const roughness = profile.roughnessMetres ?? GRASS_ROUGHNESS_METRES
  const displacement = profile.displacementMetres ?? 0
  if (!(roughness > 0) || !(displacement >= 0)) {
    return refuse(
      'E_SETTING',
      `Roughness ${roughness} m must be above 0 and displacement ${displacement} m 0 or more.`,
    )
  }
  const lowest = Math.min(profile.fromMetres, profile.toMetres)
  if (!(lowest > displacement + roughness)) {
    return refuse(
      'E_HEIGHT',
      `${lowest} m is not above displacement and roughness (${displacement + roughness} m).`,
    )
  }
  const heightRatio = (metres: number) => Math.log((metres - displacement) / roughness)
  return (metresPerSecond * heightRatio(profile.toMetres)) / heightRatio(profile.fromMetres)
}

function refuseSpeed(metresPerSecond: number): Refusal | null {
  if (Number.isFinite(metresPerSecond) && metresPerSecond >= 0) return null
  return refuse('E_SETTING', `A wind of ${metresPerSecond} m/s cannot be; speed is 0 or more.`)
}
