import { boardNameAt, type Spot, spotsAlong } from './invented-site.ts'

export type BoardLink = 'serial' | 'columns' | 'mqtt'

/** One board of the class: where it stands and how it talks. */
export interface BoardPlan {
  readonly name: string
  readonly spot: Spot
  /** SenML lines on serial; a plain sketch's columns on serial; SenML on MQTT */
  readonly link: BoardLink
  readonly baudRate: number
  /** stamps its messages with the time of day; the others only know how long ago it was */
  readonly hasClock: boolean
  /** sends under the name of another board, from another place */
  readonly isTwin: boolean
}

/**
 * Every third board is on a cable, as long as a class has USB sockets for; the second of these runs a plain sketch.
 * The first MQTT board keeps a clock.
 * @param serialPossible  false where the machine can make no pseudo-terminal: then everything is on MQTT
 */
export function planBoards(quadratCount: number, serialPossible: boolean): BoardPlan[] {
  const spots = spotsAlong(quadratCount)
  const firstOnMqtt = serialPossible ? 1 : 0
  return spots.map((spot) => {
    const link = serialPossible ? linkAt(spot.index) : 'mqtt'
    return {
      name: boardNameAt(spot.index),
      spot,
      link,
      baudRate: link === 'columns' ? 9600 : 115_200,
      hasClock: spot.index === firstOnMqtt,
      isTwin: false,
    }
  })
}

/** A second board to which somebody gave the name of the last MQTT board; it stands where the first board does. */
export function planTwin(plans: readonly BoardPlan[]): BoardPlan | null {
  const named = plans.findLast((plan) => plan.link === 'mqtt')
  const place = plans[0]
  if (!named || !place || named === place) return null
  return { ...named, spot: place.spot, hasClock: false, isTwin: true }
}

function linkAt(index: number): BoardLink {
  if (index === 3) return 'columns'
  return index === 0 || index === 6 ? 'serial' : 'mqtt'
}
