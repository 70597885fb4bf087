import {
  type Captured,
  type Field,
  type Fields,
  type Procedure,
  proceduresFor,
  type Recipe,
} from '../../calibration/index.ts'
import type { ChannelNow } from '../contract/reading.ts'
import type { Probe } from '../contract/survey.ts'
import { HubError } from '../errors.ts'
import { Answers } from './answers.ts'
import { printLine } from './command.ts'
import { averageWindow, followSignal, type HeldSignal } from './live-signal.ts'
import { procedureCalled } from './points-file.ts'
import { runningHub } from './running-hub.ts'

/**
 * The bench in a terminal: for each point asks for its reference, shows the live signal until it is steady (or until
 * Enter keeps it although it moves), and goes on until the person has had enough.
 * @throws HubError when no hub is running, or the probe's channel has not been heard
 */
export async function holdPoints(
  folder: string,
  probe: Probe,
  procedureId: string | undefined,
): Promise<Recipe> {
  const address = runningHub(folder)
  if (address === null)
    throw new HubError('E_NO_HUB', `No hub is running on ${folder}, so there is no live signal to hold.`)
  const channel = await channelOf(address, probe)
  const procedure =
    procedureId === undefined ? proceduresFor(probe.quantity)[0]! : procedureCalled(procedureId)
  const terminal = new Answers()
  try {
    printLine(`${procedure.title}: ${procedure.gives}.`)
    for (const line of [...procedure.steps, ...procedure.cautions]) printLine(`  ${line}`)
    const settings = await askAll(terminal, procedure.settings)
    const points: Captured[] = []
    for (;;) {
      const isEnough = points.length >= procedure.fewestPoints
      const words = `${points.length} kept. Enter for a point, c for a check that is not fitted${isEnough ? ', f to finish' : ''}: `
      const wish = await terminal.to(words)
      if (wish === 'f' && isEnough) break
      const fields = await askAll(terminal, procedure.perPoint)
      const kept = await hold(terminal, address, channel, procedure)
      points.push({ ...kept, fields, role: wish === 'c' ? 'check' : 'fit' })
      printLine(
        `Kept ${kept.signal.toPrecision(6)} ${channel.signalUnit}${kept.isForced ? ', although it still moved' : ''}.`,
      )
    }
    return procedure.recipe(points, settings)
  } finally {
    terminal.close()
  }
}

async function channelOf(address: string, probe: Probe): Promise<ChannelNow> {
  const response = await fetch(`${address}/api/directory`)
  const { channels } = (await response.json()) as { channels: ChannelNow[] }
  const found = channels.find(({ board, channel }) => board === probe.board && channel === probe.channel)
  if (!found)
    throw new HubError(
      'E_NO_HUB',
      `The hub has not heard ${probe.board}/${probe.channel}, the channel of ${probe.id}.`,
    )
  return found
}

async function askAll(terminal: Answers, fields: readonly Field[]): Promise<Fields> {
  const answers: Record<string, string> = {}
  for (const field of fields) answers[field.name] = await ask(terminal, field)
  return answers
}

async function ask(terminal: Answers, field: Field): Promise<string> {
  const unit = field.unit === '' ? '' : `, ${field.unit}`
  const choices = field.choices ? ` (${field.choices.map(({ value }) => value).join(', ')})` : ''
  const start = field.start === undefined ? (field.isRequired ? '' : ' [none]') : ` [${field.start}]`
  for (;;) {
    const typed = (await terminal.to(`  ${field.label}${unit}${choices}${start}: `)) || (field.start ?? '')
    const isMissing = typed === '' && field.isRequired
    const isNoNumber =
      typed !== '' && field.kind === 'number' && !Number.isFinite(Number(typed.replace(',', '.')))
    const isNoChoice =
      typed !== '' && field.choices !== undefined && !field.choices.some(({ value }) => value === typed)
    if (!isMissing && !isNoNumber && !isNoChoice) return typed
    printLine(
      isMissing ? '  This one is needed.' : isNoNumber ? '  A number, please.' : '  One of those, please.',
    )
  }
}

async function hold(terminal: Answers, address: string, channel: ChannelNow, procedure: Procedure) {
  const stop = new AbortController()
  let isForced = false
  printLine(terminal.isTyped ? '  Holding … Enter keeps it although it still moves.' : '  Holding …')
  const noLonger = terminal.onEnter(() => {
    isForced = true
  })
  try {
    for await (const held of followSignal(address, channel.id, procedure.steady, stop.signal)) {
      printLine(`  ${movement(held, channel.signalUnit, procedure)}`)
      if (held.steady || isForced)
        return {
          ...averageWindow(held.samples, procedure.steady.windowSeconds),
          isForced: !held.steady,
          secondsToSteady: held.steady ? held.heldSeconds : null,
        }
    }
    throw new HubError('E_NO_HUB', 'The hub stopped while the probe was being held.')
  } finally {
    noLonger()
    stop.abort()
  }
}

function movement(held: HeldSignal, unit: string, procedure: Procedure): string {
  const now = `${held.newest.toPrecision(6)} ${unit}`
  if (held.steady) return `${now}  steady`
  if (held.span === null) return `${now}  watching for ${procedure.steady.windowSeconds} s`
  return `${now}  still moving: ${held.span.toPrecision(2)} ${unit} in ${procedure.steady.windowSeconds} s`
}
