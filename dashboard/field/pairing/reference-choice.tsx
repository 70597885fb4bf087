import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { refreshAll } from '../../notebook.ts'
import { Choice } from '../../parts/field.tsx'
import { pairingClient } from './pairing-client.ts'

/** Which probe stands for the whole survey; the one that did before is free again. */
export function ReferenceChoice(props: {
  survey: SurveyFile
  reference: 'open-sky' | 'wind-mast'
  quantity: string
  label: string
}) {
  const { survey, reference, quantity, label } = props
  const [trouble, setTrouble] = useState('')
  const fitting = survey.probes.filter(
    (probe) => probe.quantity === quantity && probe.withdrawn === undefined,
  )
  const now = survey.probes.filter((probe) => probe.reference === reference)
  const choose = async (id: string) => {
    setTrouble('')
    try {
      for (const probe of now)
        if (probe.id !== id) await pairingClient.role(survey.id, probe.id, { reference: null })
      if (id !== '') await pairingClient.role(survey.id, id, { reference, isCarried: false })
    } catch (error) {
      setTrouble(messageOf(error))
    }
    refreshAll()
  }
  return (
    <div class="reference-choice" data-reference={reference}>
      <Choice
        label={label}
        value={now[0]?.id ?? ''}
        choices={[
          { value: '', label: fitting.length === 0 ? 'none: no such probe is named yet' : 'none' },
          ...fitting.map(({ id }) => ({ value: id, label: id })),
        ]}
        onValue={(id) => void choose(id)}
      />
      {now.length > 1 && (
        <p class="tag-suspect">
          {now.map(({ id }) => id).join(' and ')} are both said to be it; only one is used. Choose again.
        </p>
      )}
      {trouble && <p role="alert">{trouble}</p>}
    </div>
  )
}
