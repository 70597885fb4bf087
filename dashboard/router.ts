import { signal } from '@preact/signals'
import { type BenchPlace, benchPath, benchPlaceOf } from './bench/places.ts'

/** Parts of the notebook that are fetched when first asked for; each may have pages of its own. */
export type Chapter = 'plan' | 'carry' | 'field' | 'study'
const chaptersOfSurvey: readonly string[] = ['plan', 'field', 'study'] satisfies Chapter[]

/** The places of the notebook. */
export type Place =
  | { page: 'home' }
  | { page: 'survey'; survey: string }
  | { page: 'quadrat'; survey: string; quadrat: string }
  | { page: 'quality'; survey: string }
  | { page: 'decisions'; survey: string }
  | { page: 'boards' }
  | { page: 'set-up' }
  | { page: 'quarantine' }
  | { page: 'enter' }
  | { page: 'chapter'; chapter: Chapter; survey: string; rest: string[] }
  | BenchPlace
  | { page: 'nowhere'; path: string }

export function placeOf(path: string): Place {
  const parts = path.split('/').filter((part) => part !== '')
  const [first, survey, third, quadrat] = parts.map(readPart)
  if (parts.length === 0) return { page: 'home' }
  if (
    parts.length === 1 &&
    (first === 'boards' || first === 'set-up' || first === 'quarantine' || first === 'enter')
  )
    return { page: first }
  if (first === 'survey' && survey !== undefined) {
    if (parts.length === 2) return { page: 'survey', survey }
    if (parts.length === 3 && (third === 'quality' || third === 'decisions')) return { page: third, survey }
    if (parts.length === 4 && third === 'quadrat' && quadrat !== undefined)
      return { page: 'quadrat', survey, quadrat }
    if (third !== undefined && chaptersOfSurvey.includes(third))
      return { page: 'chapter', chapter: third as Chapter, survey, rest: parts.slice(3).map(readPart) }
  }
  // short, because it is on a card that a phone's camera reads
  if (first === 'carry' && survey !== undefined)
    return { page: 'chapter', chapter: 'carry', survey, rest: parts.slice(2).map(readPart) }
  if (first === 'bench') return benchPlaceOf(parts.slice(1).map(readPart)) ?? { page: 'nowhere', path }
  return { page: 'nowhere', path }
}

function readPart(part: string): string {
  try {
    return decodeURIComponent(part)
  } catch {
    return part
  }
}

export const pathTo = {
  home: '/',
  boards: '/boards',
  bench: benchPath.sheet,
  setUp: '/set-up',
  quarantine: '/quarantine',
  enter: '/enter',
  survey: (survey: string) => `/survey/${encodeURIComponent(survey)}`,
  quadrat: (survey: string, label: string) =>
    `/survey/${encodeURIComponent(survey)}/quadrat/${encodeURIComponent(label)}`,
  /** @param test  where to open it */
  quality: (survey: string, test?: string) =>
    `/survey/${encodeURIComponent(survey)}/quality${test === undefined ? '' : `#${encodeURIComponent(test)}`}`,
  /** @param rest  page within the chapter, such as `leave` */
  chapter: (survey: string, chapter: Exclude<Chapter, 'carry'>, ...rest: string[]) =>
    `/survey/${encodeURIComponent(survey)}/${[chapter, ...rest.map(encodeURIComponent)].join('/')}`,
  /** where a carried meter is read */
  carry: (survey: string, quadrat?: string) =>
    `/carry/${encodeURIComponent(survey)}${quadrat === undefined ? '' : `/${encodeURIComponent(quadrat)}`}`,
  decisions: (survey: string) => `/survey/${encodeURIComponent(survey)}/decisions`,
}

export const place = signal<Place>({ page: 'home' })
let pathShown = ''

function show(path: string): void {
  // from one part of a page to another it stays as it is
  if (path === pathShown) return
  pathShown = path
  place.value = placeOf(path)
}

/**
 * @param path  may end in `#` and a part of the page
 * @param isReplacing leaves no way back to the present place
 */
export function goTo(path: string, isReplacing = false): void {
  if (isReplacing) history.replaceState(null, '', path)
  else history.pushState(null, '', path)
  show(location.pathname)
  if (!isReplacing) scrollTo(0, 0)
}

/** Follows plain links of this page and the browser's back and forward. */
export function startRouter(): void {
  const read = () => show(location.pathname)
  addEventListener('popstate', read)
  document.addEventListener('click', (event) => {
    const link = (event.target as Element).closest?.('a')
    const isPlain =
      !event.defaultPrevented && event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey
    if (!link || !isPlain || link.origin !== location.origin || link.target || link.hasAttribute('download'))
      return
    const isWithinPage = link.hash !== '' && link.pathname === location.pathname
    if (link.pathname.startsWith('/api/') || isWithinPage) return
    event.preventDefault()
    goTo(link.pathname + link.hash)
  })
  read()
}
