/** Pages of the chapter “plan”. */
export default function PlanPages({ survey, rest }: { survey: string; rest: readonly string[] }) {
  return (
    <article class="plain-page">
      <h1>
        {survey} {rest.join(' ')}
      </h1>
    </article>
  )
}
