import type { AmendPlacement } from '../contract/changes.ts'
import type { Placement, SurveyFile } from '../contract/survey.ts'
import { HubError } from '../errors.ts'

type Split = NonNullable<AmendPlacement['split']>

/**
 * Cuts a placement at a time and says that one part of it was elsewhere: nobody pressed “next”. A part that touches a
 * placement of its probe at the same quadrat becomes one with it, so that a border moves and no crumbs are left.
 * @param index  of the placement in the survey's list
 * @throws HubError `E_BODY` when the time is not within the placement
 */
export function splitPlacement(survey: SurveyFile, index: number, split: Split): SurveyFile {
  const whole = survey.placements[index]!
  const atMs = Date.parse(split.at)
  if (atMs <= Date.parse(whole.from) || (whole.to !== undefined && atMs >= Date.parse(whole.to)))
    throw new HubError(
      'E_BODY',
      `${split.at} is not within the placement of ${whole.probe} from ${whole.from}${whole.to === undefined ? '' : ` to ${whole.to}`}.`,
    )
  const before: Placement = { ...whole, to: split.at }
  const after: Placement = { ...whole, from: split.at }
  if (split.part === 'before') before.quadrat = split.quadrat
  else after.quadrat = split.quadrat
  const parts = before.quadrat === after.quadrat ? [whole] : [before, after]
  return { ...survey, placements: joinTouching(survey.placements.toSpliced(index, 1, ...parts), whole.probe) }
}

/** The placements of one probe in time order, those that touch at one quadrat as one; the others before them. */
function joinTouching(placements: readonly Placement[], probe: string): Placement[] {
  const joined: Placement[] = []
  const own = placements.filter((placement) => placement.probe === probe)
  for (const placement of own.sort((one, other) => Date.parse(one.from) - Date.parse(other.from))) {
    const last = joined.at(-1)
    if (last && meet(last, placement)) joined[joined.length - 1] = until(last, placement.to)
    else joined.push(placement)
  }
  return [...placements.filter((placement) => placement.probe !== probe), ...joined]
}

function meet(first: Placement, second: Placement): boolean {
  return (
    first.quadrat === second.quadrat &&
    first.to !== undefined &&
    Date.parse(first.to) === Date.parse(second.from)
  )
}

function until({ to: _before, ...placement }: Placement, to: string | undefined): Placement {
  return { ...placement, ...(to === undefined ? {} : { to }) }
}
