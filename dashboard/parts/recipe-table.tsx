import { numberText } from '../format.ts'
import { wordsOf } from '../words-of.ts'

type Facts = Record<string, number | string | null>

/** What was entered for a calibration and what came out of it, as two short lists. */
export function RecipeTable({ recipe, facts }: { recipe: unknown; facts: Facts }) {
  const entered = Object.entries((recipe ?? {}) as Record<string, unknown>)
  const single = entered.filter(([, value]) => typeof value !== 'object')
  const listed = entered.filter((entry): entry is [string, object[]] => Array.isArray(entry[1]))
  const worked = Object.entries(facts).filter(([, value]) => value !== null)
  return (
    <>
      <dl class="facts">
        {single.map(([name, value]) => (
          <Fact key={name} name={name} value={value} />
        ))}
      </dl>
      {listed.map(([name, entries]) => (
        <ul key={name} class="points">
          {entries.map((entry) => (
            <li key={JSON.stringify(entry)}>
              {typeof entry === 'object' && entry !== null
                ? Object.entries(entry)
                    .map(([key, value]) => `${wordsOf(key)} ${written(value)}`)
                    .join(' · ')
                : written(entry)}
            </li>
          ))}
        </ul>
      ))}
      {worked.length > 0 && (
        <dl class="facts">
          {worked.map(([name, value]) => (
            <Fact key={name} name={name} value={value} />
          ))}
        </dl>
      )}
    </>
  )
}

function Fact({ name, value }: { name: string; value: unknown }) {
  return (
    <div>
      <dt>{wordsOf(name)}</dt>
      <dd class="figures">{written(value)}</dd>
    </div>
  )
}

function written(value: unknown): string {
  if (typeof value !== 'number') return String(value)
  if (Number.isInteger(value)) return numberText(value, 0)
  if (Math.abs(value) < 1e-9) return '0'
  return String(Number(value.toPrecision(4))).replace('-', '\u2212')
}
