/**
 * lx per µmol m⁻² s⁻¹ (400–700 nm) by light source.
 * @see Thimijan & Heins 1983, HortScience 18(6), 818–822
 */
export const LUX_PER_PPFD = {
  sun_and_sky: 54,
  blue_sky_only: 52,
  metal_halide: 71,
  high_pressure_sodium: 82,
  cool_white_fluorescent: 74,
  incandescent: 50,
} as const

export type LightSource = keyof typeof LUX_PER_PPFD
