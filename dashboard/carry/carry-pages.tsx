/** Pages of the chapter “carry”. */
export default function CarryPages({ survey, rest }: { survey: string; rest: readonly string[] }) {
  return (
    <article class="plain-page">
      <h1>
        {survey} {rest.join(' ')}
      </h1>
    </article>
  )
}
