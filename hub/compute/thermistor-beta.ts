import { z } from 'zod'
import { betaCelsius, refuse } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const thermistorBeta = defineComputation({
  name: 'thermistor-beta',
  title: 'Temperature from the resistance of a thermistor by the beta equation',
  source: 'IEC 60539-1, B-value of a thermistor',
  units: { ohm: 'Ω', ohmAt25: 'Ω at 25 °C', betaKelvin: 'K', celsius: '°C' },
  input: z.object({ ohm: number, ohmAt25: number, betaKelvin: number }),
  output: z.object({ celsius: number }),
  run({ ohm, ...beta }) {
    if (!(ohm > 0)) return refuse('E_SIGNAL_RANGE', `${ohm} Ω cannot be; resistance is above 0.`)
    if (!(beta.ohmAt25 > 0 && beta.betaKelvin > 0))
      return refuse('E_SETTING', 'R25 and beta are both above 0.')
    const celsius = betaCelsius(ohm, beta)
    if (Number.isFinite(celsius) && celsius > -273.15) return { celsius }
    return refuse('E_SIGNAL_RANGE', `${ohm} Ω is outside what the beta equation can turn into a temperature.`)
  },
})
