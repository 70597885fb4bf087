import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'

/** Things a class forgets, each with why. The school's own list goes before it. */
const THINGS: readonly { name: string; why: string }[] = [
  { name: 'The risk assessment', why: 'the person in charge has read it on site, with today’s weather' },
  { name: 'First-aid kit, and a way to call for help', why: 'try the phone where you will be' },
  { name: 'Water and soap for hands', why: 'after soil, before food' },
  { name: 'Goggles', why: 'with buffer solutions; rinse splashes with water' },
  {
    name: 'Buffers, and a bottle to take them home in',
    why: 'none is poured on the ground, none back into its bottle',
  },
  { name: 'Storage caps with storage solution', why: 'a pH bulb that dries is slow and wrong' },
  { name: 'Rinsing water and soft tissue', why: 'between quadrats' },
  { name: 'Charged batteries, dry and undamaged', why: 'never charged unattended' },
  {
    name: 'Tapes, pegs, guys for the mast, flags',
    why: 'tape and cables are trip hazards; the mast comes down when thunder is near',
  },
  { name: 'Paper sheets and pencils', why: 'in the same order as the page, for when all else fails' },
  { name: 'Bags for litter, and brushes for boots', why: 'leave nothing, carry nothing from site to site' },
]

/** What to take, to be ticked; ticks stay on this device while the page is open. */
export function TakeList({ survey }: { survey: SurveyFile }) {
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set())
  const out = survey.probes.filter(({ withdrawn }) => withdrawn === undefined).length
  const things = [
    ...(out > 0 ? [{ name: `The probes, counted: ${out}`, why: 'count them in again on leaving' }] : []),
    ...THINGS,
  ]
  return (
    <section class="field-block take-list">
      <h2>To take</h2>
      <p>
        Common advice, not a rule book: your school’s risk assessment, the landowner’s permission and the
        person in charge come first. The hub measures wind in shelter; never use it to decide whether a wood
        is safe.
      </p>
      <ul>
        {things.map(({ name, why }) => (
          <li key={name}>
            <label>
              <input
                type="checkbox"
                checked={ticked.has(name)}
                onChange={() =>
                  setTicked((before) => {
                    const after = new Set(before)
                    if (!after.delete(name)) after.add(name)
                    return after
                  })
                }
              />
              <span>
                <b>{name}</b>
                <small>{why}</small>
              </span>
            </label>
          </li>
        ))}
      </ul>
    </section>
  )
}
