import { useState } from 'preact/hooks'
import { studyClient } from '../study-client.ts'
import { TroubleNote } from '../study-head.tsx'
import { useAsked } from '../use-asked.ts'

/** The report on this page, as it will be printed; fetched when it is wanted. */
export function ReportPreview({ survey, address }: { survey: string; address: string }) {
  const [isWanted, setWanted] = useState(false)
  return isWanted ? (
    <PreviewFrame survey={survey} address={address} />
  ) : (
    <p>
      <button type="button" class="plain" onClick={() => setWanted(true)}>
        Preview it here
      </button>
    </p>
  )
}

function PreviewFrame({ survey, address }: { survey: string; address: string }) {
  const { answer, trouble, askAgain } = useAsked(survey, () => studyClient.text(address), [address])
  if (trouble)
    return (
      <TroubleNote
        trouble={{ ...trouble, message: `The report could not be fetched. ${trouble.message}` }}
        onAgain={askAgain}
      />
    )
  if (answer === null) return <p role="status">The hub is writing…</p>
  // the text is set in, not its address: a refusal can then be told in words
  return <iframe class="report-preview" title="Preview of the report" sandbox="" srcDoc={answer} />
}
