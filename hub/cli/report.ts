import { reportQuery } from '../contract/report-api.ts'
import { defaultDataFolder, readVersion } from '../environment.ts'
import { HubError } from '../errors.ts'
import { renderHtml } from '../study/report/render-html.ts'
import { renderPdf } from '../study/report/render-pdf.ts'
import { reportOf } from '../study/report/report-of.ts'
import { reportWishOf } from '../study/report/report-wish.ts'
import { pathText } from '../survey/read-survey-file.ts'
import { Timelines } from '../survey/timeline.ts'
import { type Command, printLine, readOptions } from './command.ts'
import { readHere } from './running-hub.ts'
import { writeWhole } from './write-whole.ts'

export const report: Command = {
  name: 'report',
  summary: 'Write the report of a survey, as a printable page or a PDF',
  usage: `tussock report --survey ID --out FILE.html|FILE.pdf [options]

The tool writes aim, site, methods, results, what was left out and the records; the conclusion is an empty box.

  --aim TEXT           what the class wanted to find out
  --window common      only the time in which every standing probe was logging
  --verdicts no        coefficients and tests are held back until the class has said what it expects
  --coordinates exact|blurred|none   of the site (blurred: to 0.01°)
  --hydrogen-ions yes  the pH of the mean hydrogen-ion concentration as well
  --factors "A|B"  --species "A|B"   only these
  --check yes          a last page with every text that people have typed, to be read before sharing
  --data FOLDER`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      survey: { type: 'string' },
      out: { type: 'string' },
      aim: { type: 'string' },
      window: { type: 'string' },
      verdicts: { type: 'string' },
      coordinates: { type: 'string' },
      'hydrogen-ions': { type: 'string' },
      factors: { type: 'string' },
      species: { type: 'string' },
      check: { type: 'string' },
      data: { type: 'string' },
    })
    const { survey: id, out, data, 'hydrogen-ions': hydrogenIons, ...rest } = values
    const kind = /\.(html|pdf)$/i.exec(out ?? '')?.[1]?.toLowerCase()
    if (positionals.length > 0 || id === undefined || out === undefined || kind === undefined)
      throw new HubError('E_COMMAND', 'report needs --survey ID and --out FILE.html or FILE.pdf.')
    const query = reportQuery.safeParse({ ...rest, ...(hydrogenIons !== undefined && { hydrogenIons }) })
    if (!query.success)
      throw new HubError(
        'E_QUERY',
        `${query.error.issues.map((issue) => `--${pathText(issue.path)}: ${issue.message}`).join('; ')}.`,
      )
    const reader = readHere(data ?? defaultDataFolder())
    try {
      const timelines = new Timelines(reader.surveys(), reader.spots())
      const survey = timelines.surveys.find((each) => each.id === id)
      if (!survey) throw new HubError('E_SURVEY_UNKNOWN', `There is no survey "${id}" here.`)
      const made = await reportOf(
        { reader, timelines, survey, version: readVersion() },
        reportWishOf(query.data),
      )
      await writeWhole(out, kind === 'pdf' ? await renderPdf(made) : renderHtml(made))
      printLine(`The report of “${survey.title}” is in ${out}.`)
    } finally {
      reader.close()
    }
    return undefined
  },
}
