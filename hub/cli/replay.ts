import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { appraiseWith } from '../intake/appraise.ts'
import { Intake } from '../intake/intake.ts'
import { replayCapture } from '../sources/capture.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { changeHere } from './running-hub.ts'

export const replay: Command = {
  name: 'replay',
  summary: 'Send a capture file through the hub’s own path, at its recorded times',
  usage: `tussock replay FILE [--data FOLDER]

The hub must not be running on that folder. Load the survey first, or afterwards: readings follow it either way.`,

  async run(args) {
    const { values, positionals } = readOptions(args, { data: { type: 'string' } })
    const [file] = positionals
    if (file === undefined) throw new HubError('E_COMMAND', 'Name the capture file.')
    const folder = values.data ?? defaultDataFolder()
    const counts = { frames: 0, readings: 0, repeats: 0, quarantined: 0 }
    await changeHere(folder, async (keeper, writer) => {
      const intake = new Intake(writer, folder, appraiseWith(keeper.timelines), keeper.columnsOf, {
        committed: (_items, outcomes) => {
          for (const outcome of outcomes)
            if (outcome.kind === 'kept') counts.readings += outcome.count
            else if (outcome.kind === 'repeat') counts.repeats++
            else counts.quarantined++
        },
        isWatched: () => false,
        trouble: (text) => {
          if (text !== null) process.stderr.write(`${text}\n`)
        },
      })
      intake.use(appraiseWith(keeper.timelines), keeper.columnsOf, keeper.clockShift)
      counts.frames = await replayCapture(file, intake.receive)
    })
    printLine(
      `Replayed ${counts.frames} messages: ${counts.readings} readings, ${counts.repeats} repeats, ${counts.quarantined} in quarantine.`,
    )
    return undefined
  },
}
