import { isInPlot } from '../hub/contract/quadrat-place.ts'
import type { Quadrat } from '../hub/contract/survey.ts'
import { quantityWords } from './quantities.ts'

const NARROW_SPACE = '\u202f'
const MINUS = '\u2212'
/** a space that does not break */
const SPACE = '\u00a0'

/** Units as people write them; a ratio is shown as a percentage. */
const WRITTEN: Record<string, string> = {
  Cel: '°C',
  '/': '%',
  'm3/m3': '%',
  count: 'counts',
  Ohm: 'Ω',
  pH: 'pH',
}

export function unitText(unit: string | null): string {
  return unit === null ? '' : (WRITTEN[unit] ?? unit)
}

/** Ratios come as 0–1 and are written as 0–100 %. */
export function shownFactor(unit: string | null): number {
  return unit === '/' || unit === 'm3/m3' ? 100 : 1
}

/** A number with a fixed count of decimals, thousands set apart from ten thousand on, and a true minus sign. */
export function numberText(value: number, decimals: number): string {
  const [whole = '0', part] = Math.abs(value).toFixed(Math.max(0, decimals)).split('.')
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, NARROW_SPACE) : whole
  const digits = part === undefined ? grouped : `${grouped}.${part}`
  return value < 0 && /[1-9]/.test(digits) ? MINUS + digits : digits
}

/**
 * Decimals worth showing: the first digit of the uncertainty (two when it begins with 1), as is common when
 * a result is written down; never more than the quantity's own.
 */
export function decimalsFor(quantity: string, shown: number, shownUncertainty: number | null): number {
  const words = quantityWords(quantity)
  if (shownUncertainty !== null && shownUncertainty > 0) {
    const order = Math.floor(Math.log10(shownUncertainty))
    const leads = Math.floor(shownUncertainty / 10 ** order)
    return Math.min(words.figures ? 0 : Math.max(words.decimals, 1), (leads === 1 ? 1 : 0) - order)
  }
  if (words.figures === undefined || shown === 0) return words.decimals
  return Math.min(0, words.figures - 1 - Math.floor(Math.log10(Math.abs(shown))))
}

/** `decimals` below zero rounds to tens, hundreds … */
function rounded(value: number, decimals: number): string {
  if (decimals >= 0) return numberText(value, decimals)
  const step = 10 ** -decimals
  return numberText(Math.round(value / step) * step, 0)
}

/** The digits alone, without the unit. */
export function digitsText(quantity: string, unit: string | null, value: number, uncertainty: number | null) {
  const factor = shownFactor(unit)
  const shownUncertainty = uncertainty === null ? null : uncertainty * factor
  return rounded(value * factor, decimalsFor(quantity, value * factor, shownUncertainty))
}

function withUnit(digits: string, unit: string | null): string {
  const written = unitText(unit)
  if (written === 'pH') return `pH${SPACE}${digits}`
  return written === '' ? digits : digits + SPACE + written
}

export function valueText(quantity: string, unit: string | null, value: number, uncertainty: number | null) {
  return withUnit(digitsText(quantity, unit, value, uncertainty), unit)
}

/** The interval that contains the truth 95 times in 100: two standard uncertainties each way. */
export function expandedText(quantity: string, unit: string | null, uncertainty: number): string {
  const factor = shownFactor(unit)
  const expanded = 2 * uncertainty * factor
  const decimals = decimalsFor(quantity, expanded, uncertainty * factor)
  const written = unitText(unit)
  const digits = rounded(expanded, decimals)
  return `±${SPACE}${/[1-9]/.test(digits) ? digits : numberText(expanded, decimals + 1)}${
    written === '' || written === 'pH' ? '' : SPACE + written
  }`
}

/** What the probe sent, in its own unit: as many digits as it has, up to four decimals. */
export function signalText(signal: number, unit: string | null): string {
  const decimals = Math.min(4, (String(signal).split('.')[1] ?? '').length)
  return withUnit(numberText(signal, decimals), unit === '%' ? '/' : unit)
}

/** A number of something, in its singular or plural. */
export function countText(count: number, singular: string, plural = `${singular}s`): string {
  return `${numberText(count, 0)} ${count === 1 ? singular : plural}`
}

export function metresText(metres: number): string {
  return `${Number(metres.toFixed(2))}${SPACE}m`
}

/** Where a quadrat lies: “12 m along T1”, or “corner at 2.5 m, 7 m in meadow”. */
export function placeText(quadrat: Quadrat): string {
  if (isInPlot(quadrat))
    return `corner at ${metresText(quadrat.xMetres)}, ${metresText(quadrat.yMetres)} in ${quadrat.plot}`
  const beside = quadrat.offsetMetres ?? 0
  const side = beside === 0 ? '' : `, ${metresText(Math.abs(beside))} ${beside < 0 ? 'left' : 'right'} of it`
  return `${metresText(quadrat.distanceMetres ?? 0)} along ${quadrat.transect}${side}`
}
