import type { Fault } from '../../client.ts'

/** A fault of one test for one quantity; `path` is '' when it is of the limits as a whole. */
export interface LimitFault {
  test: string
  quantity: string
  path: string
  message: string
}

/** Where on the page a fault of the hub belongs: `quality.range.soil_ph.failSpan[0]`; null: nowhere on it. */
export function faultPlace({ path, message }: Fault): LimitFault | null {
  const [first, test, quantity, ...rest] = path.replace(/\[(\d+)\]/g, '.$1').split('.')
  if (first !== 'quality' || test === undefined || quantity === undefined) return null
  return { test, quantity, path: rest.join('.'), message }
}
