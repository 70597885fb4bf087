import { useState } from 'preact/hooks'
import { countText } from '../../format.ts'

const checks = [
  'No person’s name stands in a title, a note or a group label.',
  'Somebody has said that this may be shared: the school, and the owner of the land.',
  'No rare or protected species could be found by what is in it; else leave the coordinates out.',
  'The names of the species were checked by a second pair of eyes.',
  'It says what was left out, and why.',
  'The licence was chosen by whoever may choose it.',
]

/** Six looks before anything leaves the class. They are not kept. */
export function ShareCheck() {
  const [ticked, setTicked] = useState<readonly string[]>([])
  const left = checks.length - ticked.length
  return (
    <section class="study-block share-check">
      <h2>Before you share</h2>
      <ul>
        {checks.map((check) => (
          <li key={check}>
            <label>
              <input
                type="checkbox"
                checked={ticked.includes(check)}
                onChange={(event) =>
                  setTicked(
                    event.currentTarget.checked
                      ? [...ticked, check]
                      : ticked.filter((each) => each !== check),
                  )
                }
              />
              {check}
            </label>
          </li>
        ))}
      </ul>
      <p role="status">{left === 0 ? '✓ All looked at.' : `${countText(left, 'look')} left.`}</p>
    </section>
  )
}
