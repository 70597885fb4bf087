import { NoSurvey } from './no-survey.tsx'

export function NowherePage({ path }: { path: string }) {
  return <NoSurvey why={`There is nothing at ${path}.`} />
}
