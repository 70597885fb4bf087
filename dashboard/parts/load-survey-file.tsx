import { useState } from 'preact/hooks'
import { client, type Fault, messageOf, Refusal } from '../client.ts'
import { refreshAll } from '../notebook.ts'
import { goTo, pathTo } from '../router.ts'
import { Faults } from './faults.tsx'

/** Takes a survey file from this device and gives it to the hub, which says where it is wrong, if it is. */
export function LoadSurveyFile() {
  const [trouble, setTrouble] = useState<{ said: string; faults: Fault[] } | null>(null)
  const load = async (input: HTMLInputElement) => {
    const file = input.files?.[0]
    if (!file) return
    setTrouble(null)
    try {
      const survey: unknown = JSON.parse(await file.text())
      const id = (survey as { id?: unknown } | null)?.id
      if (typeof id !== 'string') throw new Refusal('', `${file.name} is not a survey file: it has no id.`)
      await client.saveSurvey(id, survey)
      refreshAll()
      goTo(pathTo.survey(id))
    } catch (error) {
      const said =
        error instanceof SyntaxError ? `${file.name} is not JSON: ${error.message}.` : messageOf(error)
      setTrouble({ said, faults: error instanceof Refusal ? error.faults : [] })
    }
    input.value = ''
  }
  return (
    <div class="load-file">
      <label class="file">
        <span>Load a survey file</span>
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => void load(event.currentTarget)}
        />
      </label>
      {trouble && <Faults {...trouble} />}
    </div>
  )
}
