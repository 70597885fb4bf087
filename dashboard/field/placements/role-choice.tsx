import { useState } from 'preact/hooks'
import type { Probe, SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { refreshAll } from '../../notebook.ts'
import { Choice } from '../../parts/field.tsx'
import { placementsClient } from './placements-client.ts'
import { type RoleName, roleOf, rolesFor, roleWish, roleWords } from './probe-role.ts'

/** What a probe is there for, to be changed at once. */
export function RoleChoice(props: { survey: SurveyFile; probe: Probe; onSaid: (said: string) => void }) {
  const { survey, probe, onSaid } = props
  const [isBusy, setBusy] = useState(false)
  const change = async (role: RoleName) => {
    setBusy(true)
    try {
      await placementsClient.role(survey.id, probe.id, roleWish(role))
      onSaid(`${probe.id} ${roleWords[role]}.`)
    } catch (error) {
      onSaid(messageOf(error))
    }
    refreshAll()
    setBusy(false)
  }
  return (
    <div class="role-choice" data-role={roleOf(probe)} aria-busy={isBusy}>
      <Choice
        label={`What ${probe.id} is for`}
        value={roleOf(probe)}
        choices={rolesFor(probe).map((role) => ({ value: role, label: roleWords[role] }))}
        onValue={(role) => void change(role as RoleName)}
      />
    </div>
  )
}
