import { type Column, DARWIN_CORE } from './data-table.ts'

/** The columns of readings-csv.ts, in its order. */
export const READINGS_COLUMNS: readonly Column[] = [
  {
    name: 'time',
    type: 'datetime',
    title: 'Time',
    description: 'When it was measured, UTC, with milliseconds.',
    propertyUrl: `${DARWIN_CORE}measurementDeterminedDate`,
  },
  { name: 'survey', type: 'string', title: 'Survey', description: 'The survey’s id.' },
  { name: 'transect', type: 'string', title: 'Transect', description: 'The tape the quadrat lies on.' },
  {
    name: 'distance_m',
    type: 'number',
    title: 'Distance',
    description: 'Of the quadrat from the zero mark of the tape.',
    unit: 'm',
  },
  { name: 'quadrat', type: 'string', title: 'Quadrat', description: 'Its label on the ground.' },
  {
    name: 'quantity',
    type: 'string',
    title: 'Quantity',
    description: 'What was measured, such as soil_ph.',
    propertyUrl: `${DARWIN_CORE}measurementType`,
  },
  {
    name: 'value',
    type: 'number',
    title: 'Value',
    description: 'The calibrated value, in the unit beside it.',
    propertyUrl: `${DARWIN_CORE}measurementValue`,
  },
  {
    name: 'unit',
    type: 'string',
    title: 'Unit',
    description: 'As SenML (RFC 8428) writes it; / is a part of 1.',
    propertyUrl: `${DARWIN_CORE}measurementUnit`,
  },
  {
    name: 'uncertainty',
    type: 'number',
    title: 'Standard uncertainty',
    description:
      'k = 1, in the unit of the value: of the probe and its calibration, not of the patchiness of soil.',
    propertyUrl: `${DARWIN_CORE}measurementAccuracy`,
  },
  {
    name: 'flag',
    type: 'integer',
    title: 'Flag',
    description: 'QARTOD: 1 pass, 2 not evaluated, 3 suspect, 4 fail.',
  },
  { name: 'probe', type: 'string', title: 'Probe', description: 'The probe’s id.' },
  {
    name: 'calibration',
    type: 'string',
    title: 'Calibration',
    description: 'The calibration by which the signal became a value; see calibrations.csv.',
  },
  {
    name: 'signal',
    type: 'number',
    title: 'Signal',
    description: 'What the probe sent, in the unit beside it.',
  },
  { name: 'signal_unit', type: 'string', title: 'Unit of the signal', description: 'As the board sent it.' },
  {
    name: 'way',
    type: 'string',
    title: 'Way',
    description: 'How it was measured, such as slurry or direct.',
  },
  { name: 'depth_cm', type: 'number', title: 'Depth', description: 'Below the surface.', unit: 'cm' },
  { name: 'height_m', type: 'number', title: 'Height', description: 'Above the ground.', unit: 'm' },
]

/** The two columns that readings which are left out have besides. */
export const REASON_COLUMNS: readonly Column[] = [
  { name: 'reason', type: 'string', title: 'Reason', description: 'Why it is left out, in a word.' },
  { name: 'why', type: 'string', title: 'Why', description: 'The same in full.' },
]
