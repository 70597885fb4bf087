import { pathTo } from '../router.ts'

export function Waiting() {
  return <p class="opening">Turning to the page…</p>
}

export function NoSurvey({ why }: { why: string }) {
  return (
    <article class="plain-page">
      <h1>This page is not in the notebook</h1>
      <p>{why}</p>
      <p>
        <a class="button" href={pathTo.home}>
          To the first page
        </a>
      </p>
    </article>
  )
}
