import type { TemperatureRow } from './temperature-table.ts'

/** One buffer of a set: what it is and its pH by temperature. */
export interface Buffer {
  /** as asked for in a recipe */
  name: string
  label: string
  rows: readonly TemperatureRow[]
}

export interface BufferSet {
  set: string
  title: string
  source: string
  /** standard uncertainty of the set's pH as a class meets it, k = 1 */
  standardUncertaintyPh: number
  buffers: readonly Buffer[]
}

/** A class bottle's ±0.02 pH, taken as rectangular (JCGM 100:2008 §4.3.7). */
export const CLASS_BUFFER_STANDARD_UNCERTAINTY = 0.02 / Math.sqrt(3)

function seen(celsius: number, figure: number): TemperatureRow {
  return { celsius, figure, verified: true }
}

function remembered(celsius: number, figure: number): TemperatureRow {
  return { celsius, figure, verified: false }
}

/**
 * Published pH of calibration buffers by temperature. The sets differ in the second or third decimal and must not
 * be mixed. `seen` rows were read in a copy of the table; `remembered` rows are from memory and fit between them.
 */
export const BUFFER_SETS: readonly BufferSet[] = [
  {
    set: 'nist',
    title: 'Primary pH standards by substance',
    source: 'NBS/NIST scale; Buck et al. 2002, Pure Appl. Chem. 74(11), 2169–2200, Table 2',
    standardUncertaintyPh: CLASS_BUFFER_STANDARD_UNCERTAINTY,
    buffers: [
      {
        name: 'tetroxalate',
        label: 'potassium tetroxalate 0.05 mol/kg',
        rows: [
          seen(0, 1.666),
          remembered(5, 1.668),
          seen(10, 1.67),
          seen(15, 1.672),
          remembered(20, 1.675),
          seen(25, 1.679),
          seen(30, 1.683),
          remembered(35, 1.688),
          seen(37, 1.69),
          seen(40, 1.694),
          remembered(45, 1.7),
          seen(50, 1.707),
        ],
      },
      {
        name: 'tartrate',
        label: 'potassium hydrogen tartrate, saturated at 25 °C',
        rows: [
          remembered(25, 3.557),
          remembered(30, 3.552),
          remembered(35, 3.549),
          remembered(40, 3.547),
          remembered(45, 3.547),
          remembered(50, 3.549),
        ],
      },
      {
        name: 'citrate',
        label: 'potassium dihydrogen citrate 0.05 mol/kg',
        rows: [
          seen(0, 3.863),
          remembered(5, 3.84),
          seen(10, 3.82),
          seen(15, 3.803),
          remembered(20, 3.788),
          seen(25, 3.776),
          seen(30, 3.766),
          remembered(35, 3.759),
          seen(37, 3.756),
          seen(40, 3.754),
          remembered(45, 3.75),
          seen(50, 3.749),
        ],
      },
      {
        name: 'phthalate',
        label: 'potassium hydrogen phthalate 0.05 mol/kg',
        rows: [
          seen(0, 4),
          remembered(5, 3.998),
          seen(10, 3.997),
          seen(15, 3.998),
          remembered(20, 4.001),
          seen(25, 4.005),
          seen(30, 4.011),
          remembered(35, 4.018),
          seen(37, 4.022),
          seen(40, 4.027),
          remembered(45, 4.038),
          seen(50, 4.05),
        ],
      },
      {
        name: 'phosphate',
        label: 'phosphate 1:1, 0.025 + 0.025 mol/kg',
        rows: [
          seen(0, 6.984),
          remembered(5, 6.951),
          seen(10, 6.923),
          seen(15, 6.9),
          remembered(20, 6.881),
          seen(25, 6.865),
          seen(30, 6.853),
          remembered(35, 6.844),
          seen(37, 6.841),
          seen(40, 6.838),
          remembered(45, 6.834),
          seen(50, 6.833),
        ],
      },
      {
        name: 'phosphate-1-3.5',
        label: 'phosphate 1:3.5, 0.008695 + 0.03043 mol/kg',
        rows: [
          seen(0, 7.534),
          remembered(5, 7.5),
          seen(10, 7.472),
          seen(15, 7.448),
          remembered(20, 7.429),
          seen(25, 7.413),
          seen(30, 7.4),
          remembered(35, 7.389),
          seen(37, 7.386),
          seen(40, 7.38),
          remembered(45, 7.373),
          seen(50, 7.367),
        ],
      },
      {
        name: 'borax',
        label: 'sodium tetraborate 0.01 mol/kg',
        rows: [
          seen(0, 9.464),
          remembered(5, 9.395),
          seen(10, 9.332),
          seen(15, 9.276),
          remembered(20, 9.225),
          seen(25, 9.18),
          seen(30, 9.139),
          remembered(35, 9.102),
          seen(37, 9.088),
          seen(40, 9.068),
          remembered(45, 9.038),
          seen(50, 9.01),
        ],
      },
      {
        name: 'carbonate',
        label: 'sodium carbonate 0.025 + hydrogen carbonate 0.025 mol/kg',
        rows: [
          seen(0, 10.317),
          remembered(5, 10.245),
          seen(10, 10.179),
          seen(15, 10.118),
          remembered(20, 10.062),
          seen(25, 10.012),
          seen(30, 9.966),
          remembered(35, 9.925),
          seen(37, 9.91),
          seen(40, 9.889),
          remembered(45, 9.856),
          seen(50, 9.828),
        ],
      },
      {
        name: 'calcium-hydroxide',
        label: 'calcium hydroxide, saturated at 25 °C',
        rows: [
          remembered(0, 13.423),
          remembered(5, 13.207),
          remembered(10, 13.003),
          remembered(15, 12.81),
          remembered(20, 12.627),
          remembered(25, 12.454),
          remembered(30, 12.289),
          remembered(35, 12.133),
          remembered(40, 11.984),
          remembered(45, 11.841),
          remembered(50, 11.705),
        ],
      },
    ],
  },
  {
    set: 'technical',
    title: 'Technical buffers by nominal pH, as printed on most class bottles',
    source: 'technical buffer table of a pH analyser manual, 2005, two decimals',
    standardUncertaintyPh: CLASS_BUFFER_STANDARD_UNCERTAINTY,
    buffers: [
      {
        name: '4',
        label: '4.00',
        rows: [
          seen(0, 4),
          seen(10, 4),
          seen(15, 4),
          seen(25, 4),
          seen(30, 4.01),
          seen(40, 4.03),
          seen(50, 4.06),
        ],
      },
      {
        name: '7',
        label: '7.00',
        rows: [
          seen(0, 7.12),
          seen(10, 7.06),
          seen(15, 7.04),
          seen(25, 7),
          seen(30, 6.99),
          seen(40, 6.98),
          seen(50, 6.97),
        ],
      },
      {
        name: '10',
        label: '10.01',
        rows: [
          seen(0, 10.32),
          seen(10, 10.18),
          seen(15, 10.12),
          seen(25, 10.01),
          seen(30, 9.97),
          seen(40, 9.89),
          seen(50, 9.83),
        ],
      },
    ],
  },
  {
    set: 'technical-3dp',
    title: 'Technical buffer 7.00 to three decimals',
    source: 'technical buffer 7.00, recipe not a primary standard; stored sensor-driver table',
    standardUncertaintyPh: CLASS_BUFFER_STANDARD_UNCERTAINTY,
    buffers: [
      {
        name: '7',
        label: '7.00',
        rows: [
          seen(0, 7.118),
          seen(10, 7.059),
          seen(15, 7.036),
          seen(25, 7),
          seen(30, 6.987),
          seen(37, 6.974),
          seen(40, 6.97),
          seen(50, 6.964),
        ],
      },
    ],
  },
  {
    set: 'jis',
    title: 'Japanese industrial standard, two decimals',
    source: 'JIS Z 8802:2011',
    standardUncertaintyPh: CLASS_BUFFER_STANDARD_UNCERTAINTY,
    buffers: [
      {
        name: 'tetroxalate',
        label: 'oxalate',
        rows: [
          seen(0, 1.67),
          seen(10, 1.67),
          seen(15, 1.67),
          seen(25, 1.68),
          seen(30, 1.69),
          seen(40, 1.7),
          seen(50, 1.71),
        ],
      },
      {
        name: 'phthalate',
        label: 'phthalate',
        rows: [
          seen(0, 4.01),
          seen(10, 4),
          seen(15, 4),
          seen(25, 4.01),
          seen(30, 4.01),
          seen(40, 4.03),
          seen(50, 4.06),
        ],
      },
      {
        name: 'phosphate',
        label: 'neutral phosphate',
        rows: [
          seen(0, 6.98),
          seen(10, 6.92),
          seen(15, 6.9),
          seen(25, 6.86),
          seen(30, 6.85),
          seen(40, 6.84),
          seen(50, 6.83),
        ],
      },
      {
        name: 'borax',
        label: 'borate',
        rows: [
          seen(0, 9.46),
          seen(10, 9.33),
          seen(15, 9.27),
          seen(25, 9.18),
          seen(30, 9.14),
          seen(40, 9.07),
          seen(50, 9.01),
        ],
      },
      {
        name: 'carbonate',
        label: 'carbonate',
        rows: [seen(0, 10.32), seen(10, 10.18), seen(15, 10.12), seen(25, 10.02), seen(30, 9.97)],
      },
    ],
  },
  {
    set: 'hetzer-1977',
    title: 'Phthalate by the equation of Hetzer and others',
    source: 'Hetzer et al. 1977, J. Res. NBS 81A, doi 10.6028/jres.081A.005; rows computed from the equation',
    standardUncertaintyPh: CLASS_BUFFER_STANDARD_UNCERTAINTY,
    buffers: [
      {
        name: 'phthalate',
        label: 'potassium hydrogen phthalate 0.05 mol/kg',
        rows: [
          seen(0, 4.01),
          seen(10, 4),
          seen(15, 4),
          seen(25, 4.006),
          seen(30, 4.012),
          seen(37, 4.025),
          seen(40, 4.031),
          seen(50, 4.057),
        ],
      },
    ],
  },
  {
    set: 'din-19266',
    title: 'Reference buffers at 25 °C only',
    source: 'DIN 19266 / DIN EN ISO 23496, from memory',
    standardUncertaintyPh: CLASS_BUFFER_STANDARD_UNCERTAINTY,
    buffers: [
      {
        name: 'tetroxalate',
        label: 'tetroxalate',
        rows: [remembered(25, 1.679)],
      },
      {
        name: 'phthalate',
        label: 'phthalate',
        rows: [remembered(25, 4.006)],
      },
      {
        name: 'phosphate',
        label: 'phosphate',
        rows: [remembered(25, 6.865)],
      },
      {
        name: 'borax',
        label: 'borax',
        rows: [remembered(25, 9.18)],
      },
      {
        name: 'carbonate',
        label: 'carbonate',
        rows: [remembered(25, 10.012)],
      },
      {
        name: 'calcium-hydroxide',
        label: 'calcium hydroxide',
        rows: [remembered(25, 12.454)],
      },
    ],
  },
]
