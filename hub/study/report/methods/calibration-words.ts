import { bufferPh, type Fitted, isRefusal, type Recipe } from '../../../../calibration/index.ts'
import { shownUnit } from '../../pictures/shown-unit.ts'
import { counted, fixed, listed, plain, significant } from '../number-text.ts'

/** How a probe was calibrated and what came of it, in half a sentence, with its numbers. */
export function calibrationWords(recipe: Recipe, { facts, residuals, unit }: Fitted): string {
  const fact = (name: string) => (typeof facts[name] === 'number' ? facts[name] : null)
  const largest =
    residuals.length === 0 ? null : Math.max(...residuals.map(({ residual }) => Math.abs(residual)))
  const misses = largest === null ? '' : `, largest residual ${residualText(largest, unit)}`
  switch (recipe.kind) {
    case 'ph-electrode':
      return `in ${phBuffers(recipe)}: ${phFacts(fact)}${phResidual(largest, residuals.length)}`
    case 'wetness-span':
      return `between dry (${plain(recipe.drySignal, recipe.signalUnit)}) and saturated soil (${plain(recipe.wetSignal, recipe.signalUnit)}): relative wetness, which is not a water content`
    case 'water-content-fit':
      return `against ${counted(recipe.samples.length, 'oven-dried sample')} of ${recipe.soil}${misses}`
    case 'permittivity':
      return 'from the permittivity of the soil to its water content by the polynomial of Topp and others'
    case 'light-counts':
      return `from counts of a ${recipe.sensor.toUpperCase()} to lux by the maker’s formula, times ${plain(fact('factor') ?? 1)} from a side-by-side comparison`
    case 'light-power':
    case 'light-span':
      return `against a lux meter at ${counted(recipe.points.length, 'light level')}${misses}`
    case 'digital-temperature':
      return `${recipe.icePoint ? `in melting ice (${counted(recipe.icePoint.length, 'reading')})` : 'with a stated correction'}: offset ${fixed(fact('offsetCelsius') ?? 0, 3, '°C')}${misses}`
    case 'thermistor':
      return `${recipe.points ? `at ${counted(recipe.points.length, 'temperature')}` : 'by its data sheet'}: offset ${fixed(fact('offsetCelsius') ?? 0, 3, '°C')}${misses}`
    case 'platinum':
      return `by the platinum law, ${fixed(fact('ohmAtZero') ?? 100, 2, 'Ω')} at ice point, offset ${fixed(fact('offsetCelsius') ?? 0, 3, '°C')}`
    case 'cup-anemometer':
      return `${recipe.pairs ? `against ${counted(recipe.pairs.length, 'reference speed')}` : 'by its stated factor'}: ${significant(fact('offsetMetresPerSecond') ?? 0, 3, 'm/s')} plus ${significant(fact('slopeMetresPerSecondPerHertz') ?? 0, 3, 'm')} for each pulse per second${misses}`
    case 'line':
      return `${recipe.points ? `by a straight line through ${counted(recipe.points.length, 'reference point')}` : 'by a stated line'}: slope ${significant(fact('slope') ?? 0, 4)}, intercept ${significant(fact('intercept') ?? 0, 4)}${misses}`
    case 'already-a-value':
      return `by its maker: it sends values${recipe.offset ? `, to which ${significant(recipe.offset, 3)} was added` : ', taken as they come'}${recipe.standardUncertainty === undefined ? '' : `, stated standard uncertainty ${residualText(recipe.standardUncertainty, unit)}`}`
  }
}

function residualText(largest: number, unit: string): string {
  const { factor, text } = shownUnit(unit)
  return significant(largest * factor, 2, text)
}

function phBuffers({ points }: Extract<Recipe, { kind: 'ph-electrode' }>): string {
  const texts = points.map((point) => {
    const known =
      point.ph ??
      (point.bufferSet === undefined || point.buffer === undefined
        ? null
        : certified(point.bufferSet, point.buffer, point.temperatureCelsius))
    const name = point.bufferSet === undefined ? 'bottle' : `${point.bufferSet} ${point.buffer ?? ''}`
    const ph = known === null ? '' : `pH\u00a0${fixed(known, 2)} `
    const use = point.role === 'check' ? ', check only' : ''
    return `buffer ${name.trim()} (${ph}at ${fixed(point.temperatureCelsius, 1, '°C')}${use})`
  })
  return listed(texts)
}

function certified(set: string, buffer: string, celsius: number): number | null {
  const answer = bufferPh(set, buffer, celsius)
  return isRefusal(answer) ? null : answer.ph
}

function phResidual(largest: number | null, points: number): string {
  if (largest === null) return ''
  const always = points === 2 ? ' (a line through two points always fits)' : ''
  return `, largest residual ${fixed(largest, 3)}${always}`
}

function phFacts(fact: (name: string) => number | null): string {
  const percent = fact('slopePercent')
  const slope = fixed(fact('slopeMillivoltPerPh') ?? 0, 2, 'mV')
  const share =
    percent === null
      ? `${slope} per pH (what share of the theoretical slope that is cannot be known)`
      : `${fixed(percent, 1, '%')} of the theoretical slope (${slope} per pH)`
  return `${share}, offset ${fixed(fact('offsetMillivolt') ?? 0, 1, 'mV')} at pH\u00a07`
}
