import type { ComponentChildren } from 'preact'
import { you } from '../access/you.ts'
import { currentSurvey, currentSurveyId } from '../current-survey.ts'
import { hub } from '../notebook.ts'
import { pathTo, place } from '../router.ts'
import { Banners } from './banners.tsx'
import { Hatches } from './hatches.tsx'
import { HubClock } from './hub-clock-face.tsx'
import { TussockMark } from './marks.tsx'
import { usePageTurn } from './use-page-turn.ts'

/** The cover strip, what must be said on every page, the page, and a line of safety. */
export function Frame({ children }: { children: ComponentChildren }) {
  const survey = currentSurveyId.value
  const page = place.value.page
  const chapter = place.value.page === 'chapter' ? place.value.chapter : null
  usePageTurn(place.value, currentSurvey.value?.title)
  const unread = hub.value?.tallies.quarantined ?? 0
  return (
    <>
      <a class="skip" href="#content">
        Skip to the page
      </a>
      <Hatches />
      <header class="cover">
        <a class="name" href={pathTo.home}>
          <TussockMark />
          <span>Tussock</span>
        </a>
        <p class="cover-title">{currentSurvey.value?.title ?? ''}</p>
        <HubClock />
        <nav aria-label="Pages of the notebook">
          <Tab
            href={survey === null ? pathTo.home : pathTo.survey(survey)}
            isHere={['home', 'survey', 'quadrat', 'quality', 'decisions'].includes(page)}
          >
            Transect
          </Tab>
          {survey !== null && (
            <>
              <Tab href={pathTo.chapter(survey, 'plan')} isHere={chapter === 'plan'}>
                Plan
              </Tab>
              <Tab href={pathTo.chapter(survey, 'field')} isHere={chapter === 'field' || chapter === 'carry'}>
                Field
              </Tab>
              <Tab href={pathTo.chapter(survey, 'study')} isHere={chapter === 'study'}>
                Study
              </Tab>
            </>
          )}
          <Tab href={pathTo.boards} isHere={page === 'boards'}>
            Boards
          </Tab>
          <Tab href={pathTo.bench} isHere={page.startsWith('bench')}>
            Bench
          </Tab>
          <Tab href={pathTo.quarantine} isHere={page === 'quarantine'}>
            Quarantine{unread > 0 ? <small> {unread}</small> : null}
          </Tab>
          <Tab href={pathTo.setUp} isHere={page === 'set-up'}>
            Set up
          </Tab>
        </nav>
      </header>
      <Banners />
      <main id="content" tabIndex={-1}>
        {children}
      </main>
      <footer>
        <p>
          The hub measures wind in shelter: never use its wind speed to decide whether a wood is safe. Wash
          hands after soil, before food.
        </p>
        {you.value?.isOnNetwork && (
          <p class="small">
            {you.value.role === 'teacher' ? 'You are let in as the teacher.' : 'You are let in as the class.'}{' '}
            <a href={pathTo.enter}>{you.value.role === 'teacher' ? 'Leave' : 'Enter as the teacher'}</a>
          </p>
        )}
        <p class="small">Tussock {hub.value?.version ?? ''} · teaching probes, not compliance instruments</p>
      </footer>
    </>
  )
}

function Tab(props: { href: string; isHere: boolean; children: ComponentChildren }) {
  return (
    <a class="tab" href={props.href} {...(props.isHere ? { 'aria-current': 'page' as const } : {})}>
      {props.children}
    </a>
  )
}
