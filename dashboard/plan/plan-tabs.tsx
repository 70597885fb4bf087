import { pathTo } from '../router.ts'

const tabs = [
  { rest: '', label: 'Plan' },
  { rest: 'cards', label: 'Label cards' },
  { rest: 'sheet', label: 'Paper sheet' },
  { rest: 'enough', label: 'How many are enough?' },
] as const

/** The pages of this chapter. */
export function PlanTabs({ survey, here }: { survey: string; here: (typeof tabs)[number]['rest'] }) {
  return (
    <p class="plan-tabs not-print">
      {tabs.map(({ rest, label }) => (
        <a
          key={rest}
          href={rest === '' ? pathTo.chapter(survey, 'plan') : pathTo.chapter(survey, 'plan', rest)}
          {...(here === rest ? { 'aria-current': 'page' as const } : {})}
        >
          {label}
        </a>
      ))}
    </p>
  )
}
