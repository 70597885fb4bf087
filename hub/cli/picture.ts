import { pictureQuery } from '../contract/report-api.ts'
import { defaultDataFolder } from '../environment.ts'
import { HubError } from '../errors.ts'
import { drawPicture } from '../study/pictures/draw-picture.ts'
import { pictureMaterial } from '../study/pictures/picture-material.ts'
import { isPictureName, PICTURES } from '../study/pictures/picture-names.ts'
import { pictureWishOf } from '../study/report/report-wish.ts'
import { Study } from '../study/study.ts'
import { pathText } from '../survey/read-survey-file.ts'
import { Timelines } from '../survey/timeline.ts'
import { type Command, readOptions } from './command.ts'
import { readHere } from './running-hub.ts'
import { writeWhole } from './write-whole.ts'

export const picture: Command = {
  name: 'picture',
  summary: 'Draw a picture of a study as SVG, readable in black and white',
  usage: `tussock picture NAME --survey ID [options]

${Object.entries(PICTURES)
  .map(([name, shows]) => `  ${name.padEnd(18)} ${shows}`)
  .join('\n')}

  --out FILE.svg       instead of standard output
  --factors "A|B"  --species "A|B"   only these
  --transect ID        of a profile; the one with the most quadrats when not given
  --width PX           320 to 2400 (800)
  --window common      only the time in which every standing probe was logging
  --held-back yes      without coefficients
  --data FOLDER`,

  async run(args) {
    const { values, positionals } = readOptions(args, {
      survey: { type: 'string' },
      out: { type: 'string' },
      factors: { type: 'string' },
      species: { type: 'string' },
      transect: { type: 'string' },
      width: { type: 'string' },
      window: { type: 'string' },
      'held-back': { type: 'string' },
      data: { type: 'string' },
    })
    const { survey: id, out, data, 'held-back': heldBack, ...rest } = values
    const name = positionals[0] ?? ''
    if (!isPictureName(name))
      throw new HubError(
        'E_COMMAND',
        `There is no picture "${name}"; there is ${Object.keys(PICTURES).join(', ')}.`,
      )
    if (id === undefined) throw new HubError('E_COMMAND', 'picture needs --survey ID.')
    const query = pictureQuery.safeParse({ ...rest, ...(heldBack !== undefined && { heldBack }) })
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
      const wish = pictureWishOf(query.data)
      const svg = drawPicture(name, await pictureMaterial(new Study(reader, timelines, survey), wish), wish)
      if (out === undefined) process.stdout.write(svg)
      else await writeWhole(out, svg)
    } finally {
      reader.close()
    }
    return undefined
  },
}
