import { z } from 'zod'
import { platinumOhm, platinumTolerance, refuse } from '../../calibration/index.ts'
import { defineComputation } from './computation.ts'
import { number } from './fields.ts'

export const platinumResistance = defineComputation({
  name: 'platinum-resistance',
  title: 'Resistance of a platinum thermometer at a temperature, and its tolerance',
  source: 'IEC 60751:2008',
  units: {
    celsius: '°C',
    ohmAtZero: 'Ω at 0 °C, 100 when not given',
    ohm: 'Ω',
    classAToleranceCelsius: '± °C',
    classBToleranceCelsius: '± °C',
  },
  input: z.object({ celsius: number, ohmAtZero: number.optional() }),
  output: z.object({ ohm: number, classAToleranceCelsius: number, classBToleranceCelsius: number }),
  run({ celsius, ohmAtZero = 100 }) {
    if (celsius < -200 || celsius > 850) {
      return refuse('E_TEMPERATURE_RANGE', `${celsius} °C is outside the standard, −200 to 850 °C.`)
    }
    if (!(ohmAtZero > 0))
      return refuse('E_SETTING', `The resistance at 0 °C is ${ohmAtZero} Ω; it is above 0.`)
    return {
      ohm: platinumOhm(celsius, ohmAtZero),
      classAToleranceCelsius: platinumTolerance('A', celsius),
      classBToleranceCelsius: platinumTolerance('B', celsius),
    }
  },
})
