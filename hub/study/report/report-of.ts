import { buildReport } from './build-report.ts'
import { type ReportSource, type ReportWish, reportFacts } from './report-facts.ts'
import type { ReportModel } from './report-model.ts'

/** A survey to its report. @throws HubError when a factor or species asked for is not there */
export async function reportOf(source: ReportSource, wish: ReportWish): Promise<ReportModel> {
  return buildReport(await reportFacts(source, wish))
}
