import type { ReportFacts } from './report-facts.ts'
import { type ReportSection, table } from './report-model.ts'

/** Every text that people have typed, with where it stands: no program can tell a name from a word, a teacher can. */
export function freeTextsSection(facts: ReportFacts): ReportSection {
  const rows = freeTexts(facts).filter(([, text]) => text !== undefined && text.trim() !== '')
  return {
    title: 'To be read before sharing',
    blocks: [
      {
        kind: 'note',
        text: 'Only for the teacher: is there a name, or anything else about a person, in these texts? Correct it where it stands, then make the report again without this page.',
      },
      table(
        'Texts that people typed',
        ['Where', 'text'],
        [],
        [...placesByText(rows)].map(([text, places]) => [placesText(places), text]),
      ),
    ],
    beginsPage: true,
  }
}

/** The same text is read once, with the first places where it stands. */
function placesByText(rows: readonly FreeText[]): Map<string, string[]> {
  const byText = new Map<string, string[]>()
  for (const [where, text] of rows) byText.set(text!, [...(byText.get(text!) ?? []), where])
  return byText
}

const PLACES_AT_MOST = 2

function placesText(places: readonly string[]): string {
  const more = places.length - PLACES_AT_MOST
  return `${places.slice(0, PLACES_AT_MOST).join('; ')}${more > 0 ? `; ${more} more` : ''}`
}

type FreeText = readonly [where: string, text: string | undefined]

function freeTexts({ survey, wish, spots, sheets, species, catches }: ReportFacts): FreeText[] {
  return [
    ['title', survey.title],
    ['aim', wish.aim ?? undefined],
    ['site', survey.site.name],
    ['notes on the site', survey.site.notes],
    ...survey.transects.flatMap(({ id, name, zones }): FreeText[] => [
      [`transect ${id}`, name],
      ...zones.map((zone): FreeText => [`zone of ${id}`, zone.name]),
    ]),
    ...(survey.plots ?? []).map(({ id, name }): FreeText => [`plot ${id}`, name]),
    ...(survey.plan ?? []).flatMap((rule): FreeText[] =>
      'rejected' in rule ? rule.rejected.map(({ reason }): FreeText => ['place not used', reason]) : [],
    ),
    ...survey.quadrats.flatMap(({ label, lifted }): FreeText[] => [
      ['label of a quadrat', label],
      [`quadrat ${label} taken up`, lifted?.reason],
    ]),
    ...(survey.groups ?? []).map(({ label }): FreeText => ['group', label]),
    ...survey.boards.map(({ name, notes }): FreeText => [`notes on board ${name}`, notes]),
    ...survey.probes.map(({ id, withdrawn }): FreeText => [`probe ${id} withdrawn`, withdrawn?.reason]),
    ...ofCalibrations(survey),
    ...(survey.decisions ?? []).flatMap((each): FreeText[] => [
      [`decision ${each.id}, reason`, each.reason],
      [`decision ${each.id}, by`, each.by],
      [`decision ${each.id}, taken back by`, each.takenBack?.by],
    ]),
    ...(survey.clockCorrections ?? []).flatMap(({ id, reason, by }): FreeText[] => [
      [`clock correction ${id}, reason`, reason],
      [`clock correction ${id}, by`, by],
    ]),
    ...ofTraps(survey),
    ...spots.flatMap(({ spot }): FreeText[] => [
      [`spot reading ${spot.id}, by`, spot.by],
      [`spot reading ${spot.id}, note`, spot.note],
      ...spot.amendments.flatMap((each): FreeText[] => [
        [`spot reading ${spot.id}, change`, each.reason],
        [`spot reading ${spot.id}, changed by`, each.by],
      ]),
    ]),
    ...sheets.flatMap(({ id, name, by }): FreeText[] => [
      [`sheet ${id}`, name],
      [`sheet ${id}, by`, by ?? undefined],
    ]),
    ...(species?.table?.taxa ?? []).map(({ name }): FreeText => ['species', name]),
    ...(species?.table?.quadrats ?? []).map(({ label }): FreeText => ['quadrat in the species sheet', label]),
    ...catches.map(({ record }): FreeText => ['animal', record.taxon ?? undefined]),
  ]
}

function ofCalibrations({ calibrations, checks }: ReportFacts['survey']): FreeText[] {
  return [
    ...calibrations.flatMap(({ id, by, note, withdrawn }): FreeText[] => [
      [`calibration ${id}, by`, by],
      [`calibration ${id}, note`, note],
      [`calibration ${id}, withdrawn`, withdrawn?.reason],
    ]),
    ...(checks ?? []).flatMap(({ id, by, note, referenceName }): FreeText[] => [
      [`check ${id}, by`, by],
      [`check ${id}, note`, note],
      [`check ${id}, reference`, referenceName],
    ]),
  ]
}

function ofTraps({ traps }: ReportFacts['survey']): FreeText[] {
  return (traps ?? []).flatMap(({ id, by, note, checks }): FreeText[] => [
    [`trap ${id}, by`, by],
    [`trap ${id}, note`, note],
    ...checks.flatMap((check): FreeText[] => [
      [`trap ${id}, looked at by`, check.by],
      [`trap ${id}, found`, check.note],
    ]),
  ])
}
