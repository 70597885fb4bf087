/** Packets of MQTT 3.1.1 as bytes, for clients that do not behave. */

/** @param first  type and flags, §2.2.1 and §2.2.2 */
export function mqttPacket(first: number, ...body: Uint8Array[]): Buffer {
  const whole = Buffer.concat(body)
  const length: number[] = []
  let left = whole.length
  do {
    length.push((left % 128) | (left >= 128 ? 0x80 : 0))
    left = Math.floor(left / 128)
  } while (left > 0)
  return Buffer.concat([Buffer.from([first, ...length]), whole])
}

/** §1.5.3 */
export function mqttText(text: string): Buffer {
  const bytes = Buffer.from(text)
  return Buffer.concat([mqttNumber(bytes.length), bytes])
}

export function mqttNumber(number: number): Buffer {
  return Buffer.from([number >> 8, number & 0xff])
}

const CLEAN = 0x02
const WILL = 0x2c
const NAME_AND_KEY = 0xc0

/** §3.1 */
export function connectPacket(
  clientId: string,
  more: { isClean?: boolean; will?: { topic: string; payload: string }; name?: string; key?: string } = {},
): Buffer {
  const { isClean = true, will, name, key } = more
  const flags = (isClean ? CLEAN : 0) | (will ? WILL : 0) | (name === undefined ? 0 : NAME_AND_KEY)
  return mqttPacket(
    0x10,
    mqttText('MQTT'),
    Buffer.from([4, flags]),
    mqttNumber(60),
    mqttText(clientId),
    ...(will ? [mqttText(will.topic), mqttText(will.payload)] : []),
    ...(name === undefined ? [] : [mqttText(name), mqttText(key ?? '')]),
  )
}

/** §3.3 */
export function publishPacket(
  topic: string,
  payload: Uint8Array,
  more: { qos?: 0 | 1 | 2; number?: number; isRetained?: boolean } = {},
): Buffer {
  const { qos = 0, number = 1, isRetained = false } = more
  return mqttPacket(
    0x30 | (qos << 1) | (isRetained ? 1 : 0),
    mqttText(topic),
    ...(qos > 0 ? [mqttNumber(number)] : []),
    payload,
  )
}

/** §3.8 */
export function subscribePacket(number: number, ...topics: string[]): Buffer {
  return mqttPacket(
    0x82,
    mqttNumber(number),
    ...topics.map((topic) => Buffer.concat([mqttText(topic), Buffer.from([1])])),
  )
}

/** §3.12 */
export const pingPacket = mqttPacket(0xc0)
