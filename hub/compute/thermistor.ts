import { z } from 'zod'
import { refuse, steinhartHartCelsius } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const thermistor = defineComputation({
  name: 'thermistor',
  title: 'Temperature from the resistance of a thermistor by the Steinhart–Hart equation',
  source: 'Steinhart & Hart 1968, Deep-Sea Research 15(4), 497–503',
  units: { ohm: 'Ω', a: '1/K', b: '1/K', c: '1/K', celsius: '°C' },
  input: z.object({ ohm: number, a: number, b: number, c: number }),
  output: z.object({ celsius: number }),
  run({ ohm, ...fit }) {
    if (!(ohm > 0)) return refuse('E_SIGNAL_RANGE', `${ohm} Ω cannot be; resistance is above 0.`)
    const celsius = steinhartHartCelsius(ohm, fit)
    if (Number.isFinite(celsius) && celsius > -273.15) return { celsius }
    return refuse(
      'E_SETTING',
      'These coefficients give no temperature at this resistance; check their signs and powers.',
    )
  },
})
