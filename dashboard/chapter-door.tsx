import type { ComponentType } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import { Waiting } from './pages/no-survey.tsx'
import type { Chapter } from './router.ts'

/** A part of the notebook with pages of its own, all about one survey. `rest` is what follows in the address. */
export type ChapterPages = ComponentType<{ survey: string; rest: readonly string[] }>

const chapters: Record<Chapter, () => Promise<{ default: ChapterPages }>> = {
  plan: () => import('./plan/plan-pages.tsx'),
  carry: () => import('./carry/carry-pages.tsx'),
  field: () => import('./field/field-pages.tsx'),
  study: () => import('./study/study-pages.tsx'),
}
const opened = new Map<Chapter, ChapterPages>()

/** A chapter is fetched when first asked for, so that the first page is light. */
export function ChapterDoor(props: { chapter: Chapter; survey: string; rest: readonly string[] }) {
  const { chapter, survey, rest } = props
  const [, setOpened] = useState(0)
  const [isShut, setShut] = useState(false)
  const open = () => {
    setShut(false)
    chapters[chapter]()
      .then((pages) => {
        opened.set(chapter, pages.default)
        setOpened((count) => count + 1)
      })
      .catch(() => setShut(true))
  }
  const Pages = opened.get(chapter)
  useEffect(() => {
    if (!Pages) open()
  }, [chapter])
  if (Pages) return <Pages key={survey} survey={survey} rest={rest} />
  if (!isShut) return <Waiting />
  return (
    <article class="plain-page">
      <h1>This page could not be fetched</h1>
      <p>The hub did not answer. Check that this device is on its Wi-Fi.</p>
      <p>
        <button type="button" onClick={open}>
          Try again
        </button>
      </p>
    </article>
  )
}
