/** Pages of the chapter “study”. */
export default function StudyPages({ survey, rest }: { survey: string; rest: readonly string[] }) {
  return (
    <article class="plain-page">
      <h1>
        {survey} {rest.join(' ')}
      </h1>
    </article>
  )
}
