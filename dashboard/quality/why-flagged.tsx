import { useEffect } from 'preact/hooks'
import type { ReadingExplained } from '../../hub/contract/reading.ts'
import { StandingMark } from '../parts/marks.tsx'
import { pathTo } from '../router.ts'
import { reasonWords } from './clean/reason-words.ts'
import { qualityTests, readQualityTests } from './test-list.ts'

/** Each test that found something in a reading: its title, what it said, and the way to what it means. */
export function WhyFlagged({ told }: { told: Pick<ReadingExplained, 'why' | 'survey'> }) {
  useEffect(() => {
    // without them the tests keep their names
    readQualityTests().catch(() => undefined)
  }, [])
  const tests = qualityTests.value ?? []
  return (
    <>
      {told.why.map((reason) => {
        const isFail = reason.flag === 4
        const isTest = tests.some(({ name }) => name === reason.test)
        return (
          <div key={reason.test} class="why-flagged" data-why={reason.test}>
            <p class={isFail ? 'tag-fail' : 'tag-suspect'}>
              <StandingMark standing={isFail ? 'fail' : 'suspect'} />{' '}
              <b>{reasonWords(reason.test, tests).title}:</b> {reason.text}.
            </p>
            {isTest && told.survey !== null ? (
              <a class="lesser" href={pathTo.quality(told.survey, reason.test)}>
                What this test means, and its limits
              </a>
            ) : (
              <p class="field-hint">{reasonWords(reason.test, tests).explain}</p>
            )}
          </div>
        )
      })}
    </>
  )
}
