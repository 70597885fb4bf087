import { HubError, messageOf } from './errors.ts'
import type { RehearsalSetting } from './rehearse.ts'
import { type HubSetting, Session } from './session.ts'

export interface RunningHub {
  readonly address: string
  readonly mqtt: string
  readonly dataFolder: string
  /** resolves when the hub has ended by itself: a rehearsal of limited time that is over */
  readonly over: Promise<void>
  stop(): Promise<void>
}

/**
 * Starts the hub, and starts it anew with another data folder when the page asks to begin or end a rehearsal.
 * @throws HubError when a port is taken or the data folder cannot be used
 */
export async function startHub(setting: HubSetting, say: (line: string) => void): Promise<RunningHub> {
  let isStopping = false
  let end: () => void = () => {}
  const over = new Promise<void>((resolve) => {
    end = resolve
  })
  let session: Session
  const change = (rehearsal: RehearsalSetting | null): void => {
    const port = session.port
    setImmediate(async () => {
      try {
        await session.stop()
        if (isStopping) return
        session = await Session.start({ ...setting, port, rehearsal }, events)
        say(
          rehearsal
            ? `Rehearsing, with data in ${session.dataFolder}`
            : `Back to the data in ${session.dataFolder}`,
        )
      } catch (error) {
        say(error instanceof HubError ? `${error.code}: ${error.said}` : messageOf(error))
        end()
      }
    })
  }
  const events = { say, change, end }
  session = await Session.start(setting, events)
  return {
    get address() {
      return session.address
    },
    get mqtt() {
      return session.mqtt.description
    },
    get dataFolder() {
      return session.dataFolder
    },
    over,
    async stop() {
      isStopping = true
      await session.stop()
    },
  }
}
