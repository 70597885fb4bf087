import { signal } from '@preact/signals'
import { client, messageOf } from './client.ts'
import { goTo, pathTo } from './router.ts'

/** What the hub is changing over to, while it does; it opens another data folder, which takes a moment. */
export const changingOver = signal<'to the rehearsal' | 'to the class’s own notebook' | null>(null)
export const changeTrouble = signal<string | null>(null)

const PATIENCE_MS = 40_000

export async function startRehearsal(): Promise<void> {
  await changeOver('to the rehearsal', true, () => client.startRehearsal([]))
}

export async function endRehearsal(): Promise<void> {
  await changeOver('to the class’s own notebook', false, () => client.endRehearsal())
}

async function changeOver(
  where: NonNullable<typeof changingOver.value>,
  isRehearsal: boolean,
  ask: () => Promise<unknown>,
): Promise<void> {
  changingOver.value = where
  changeTrouble.value = null
  try {
    await ask()
    const patienceEnds = performance.now() + PATIENCE_MS
    while (performance.now() < patienceEnds) {
      await new Promise((resolve) => setTimeout(resolve, 500))
      const now = await client.hub().catch(() => null)
      if (now?.isRehearsal === isRehearsal && (!isRehearsal || now.surveys.length > 0)) {
        goTo(pathTo.home, true)
        location.reload()
        return
      }
    }
    changeTrouble.value = 'The hub has not come back. Look at the window it was started in.'
  } catch (error) {
    changeTrouble.value = messageOf(error)
  }
  changingOver.value = null
}
