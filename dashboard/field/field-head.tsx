import type { ComponentChildren } from 'preact'
import { pathTo } from '../router.ts'

/** The way back to the chapter's first page, the title, and what could not be asked. */
export function FieldHead(props: {
  survey: string
  title: string
  trouble?: string
  children?: ComponentChildren
}) {
  return (
    <header class="field-head">
      <a class="field-back not-print" href={pathTo.chapter(props.survey, 'field')}>
        ‹ In the field
      </a>
      <h1>{props.title}</h1>
      {props.children}
      {props.trouble && (
        <p class="field-trouble" role="alert">
          {props.trouble}
        </p>
      )}
    </header>
  )
}
