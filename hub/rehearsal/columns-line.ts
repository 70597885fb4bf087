import type { Sample } from './sampling.ts'

/**
 * What the plain sketch prints: running seconds, then moisture, light, pH, temperature and wind.
 * The first column means nothing to the hub and is left aside by the map.
 */
export const columnOrder = {
  separator: 'semicolon' as const,
  decimal: 'comma' as const,
  channels: [
    null,
    { channel: 'moisture', unit: 'count' },
    { channel: 'light', unit: 'count' },
    { channel: 'ph', unit: 'mV' },
    { channel: 'temperature', unit: 'Cel' },
    { channel: 'wind', unit: 'Hz' },
  ],
}

/** `35;512;8123;84,2;12,5;1,25`, without the line's end. */
export function columnsLine(sample: Sample, runningSeconds: number): string {
  const numbers = columnOrder.channels.map((column) => {
    if (!column) return Math.floor(runningSeconds)
    return sample.records.find((record) => record.channel === column.channel)?.signal ?? 0
  })
  return numbers.map((number) => String(number).replace('.', ',')).join(';')
}
