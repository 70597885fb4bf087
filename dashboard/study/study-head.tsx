import type { ComponentChildren } from 'preact'
import { pathTo } from '../router.ts'
import type { Trouble } from './use-asked.ts'

/** The way back to the chapter's first page, the title, what the page is for, and what could not be asked. */
export function StudyHead(props: {
  survey: string
  title: string
  trouble?: Trouble | null
  onAgain?: () => void
  children?: ComponentChildren
}) {
  const { survey, title, trouble, onAgain, children } = props
  return (
    <header class="study-head">
      <a class="study-back not-print" href={pathTo.chapter(survey, 'study')}>
        ‹ Study
      </a>
      <h1>{title}</h1>
      {children}
      {trouble && <TroubleNote trouble={trouble} {...(onAgain ? { onAgain } : {})} />}
    </header>
  )
}

/** What the hub said instead of an answer, in its words, and a way to ask again. */
export function TroubleNote({ trouble, onAgain }: { trouble: Trouble; onAgain?: () => void }) {
  return (
    <div class="study-trouble" role="alert">
      <p>{trouble.message}</p>
      {onAgain && (
        <button type="button" class="take plain" onClick={onAgain}>
          Ask again
        </button>
      )}
    </div>
  )
}
