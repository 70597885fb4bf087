/** Pages of the chapter “field”. */
export default function FieldPages({ survey, rest }: { survey: string; rest: readonly string[] }) {
  return (
    <article class="plain-page">
      <h1>
        {survey} {rest.join(' ')}
      </h1>
    </article>
  )
}
