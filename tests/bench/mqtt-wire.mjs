// MQTT 3.1.1 packets, as few as a plain client at QoS 1 needs.

function remaining(length) {
  const bytes = []
  for (let rest = length; ; ) {
    const low = rest % 128
    rest = Math.floor(rest / 128)
    bytes.push(rest > 0 ? low | 128 : low)
    if (rest === 0) return Buffer.from(bytes)
  }
}

export function text(string) {
  const bytes = Buffer.from(string)
  return Buffer.concat([Buffer.from([bytes.length >> 8, bytes.length & 255]), bytes])
}

function packet(first, ...parts) {
  const body = Buffer.concat(parts)
  return Buffer.concat([Buffer.from([first]), remaining(body.length), body])
}

export const connectPacket = (name) => packet(0x10, text('MQTT'), Buffer.from([4, 2, 0, 60]), text(name))
export const publishPacket = (topic, id, payload) =>
  packet(0x32, topic, Buffer.from([id >> 8, id & 255]), Buffer.from(payload))
export const subscribePacket = (filter) => packet(0x82, Buffer.from([0, 1]), text(filter), Buffer.from([1]))
export const pubackPacket = (id) => Buffer.from([0x40, 2, id >> 8, id & 255])
