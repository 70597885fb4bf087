import type { SurveyFile } from '../../hub/contract/survey.ts'
import { pathTo } from '../router.ts'
import { AddTypedMeter } from './add-typed-meter.tsx'
import { CarriedChoice } from './carried-choice.tsx'
import { choicesOf } from './choices.ts'
import { GroupChoice } from './group-choice.tsx'
import { isOfOthers, quadratsOfGroup } from './group-label.ts'
import { MeterChoice } from './meter-choice.tsx'
import { chosenMeter, metersOf } from './meters.ts'
import { nextQuadrat } from './next-quadrat.ts'
import { drafts, unsent } from './on-this-phone.ts'
import { isDoneFor, progressAt, wantedByCarrying } from './progress.ts'
import { QuadratTile } from './quadrat-tile.tsx'
import { ScanCard } from './scan-card.tsx'
import { TakenList } from './taken-list.tsx'
import { useSpots } from './use-spots.ts'

/** Which quadrat? The next one is suggested; the group’s own come first. */
export function ChoosePage({ survey }: { survey: SurveyFile }) {
  const spots = useSpots(survey.id)
  const choices = choicesOf(survey.id)
  const meters = metersOf(survey)
  const meter = chosenMeter(meters, choices.meter)
  const wanted = wantedByCarrying(survey, meters)
  const progressOf = (label: string) => progressAt(label, wanted, spots ?? [], unsent.value, survey.probes)
  const own = quadratsOfGroup(survey, choices.group)
  const begun = [...drafts.value.values()].find(
    (draft) =>
      draft.survey === survey.id && (draft.rounds.length > 0 || draft.typed.some(({ text }) => text)),
  )
  const here = lastVisited(choices.group, spots)
  const next =
    meter === null ? null : nextQuadrat(survey, own, here, (label) => isDoneFor(progressOf(label), meter))
  const inOrder = walkOrder(survey)
  const mine = inOrder.filter(({ label }) => !isOfOthers(survey, choices.group, label))
  const others = inOrder.filter(({ label }) => isOfOthers(survey, choices.group, label))
  const tile = (quadrat: SurveyFile['quadrats'][number], isNext = false) => (
    <QuadratTile
      key={quadrat.label}
      survey={survey}
      quadrat={quadrat}
      group={choices.group}
      progress={progressOf(quadrat.label)}
      isNext={isNext}
      isKnown={spots !== null}
    />
  )
  return (
    <>
      <h1>Carry a meter round</h1>
      {meters.length > 0 && (
        <div class="carry-who">
          <GroupChoice survey={survey} />
          <MeterChoice survey={survey} meters={meters} chosen={meter} />
        </div>
      )}
      {meters.length === 0 && <CarriedChoice survey={survey} isFirst />}
      {begun && (
        <p class="carry-strip">
          <b>
            {begun.quadrat} is half done{begun.rounds.length > 0 && `: ${begun.rounds.length} held`}.
          </b>
          <a class="button" href={pathTo.carry(survey.id, begun.quadrat)}>
            Go on with {begun.quadrat}
          </a>
        </p>
      )}
      {survey.quadrats.length === 0 && (
        <p>
          The survey has no quadrats yet. <a href={pathTo.chapter(survey.id, 'plan')}>Plan them first.</a>
        </p>
      )}
      {meters.length > 0 && (
        <>
          {next && !begun && <div class="carry-next">{tile(next, true)}</div>}
          {!next && meter !== null && mine.length > 0 && (
            <p class="carry-all" role="status">
              ✓ All quadrats {own.length > 0 ? `of ${choices.group} ` : ''}are done with this meter.
            </p>
          )}
          <section aria-label="Quadrats">
            <h2>{own.length > 0 ? `Quadrats of ${choices.group}` : 'Quadrats'}</h2>
            <div class="carry-tiles">{mine.map((quadrat) => tile(quadrat))}</div>
          </section>
          {others.length > 0 && (
            <details class="carry-more">
              <summary>Quadrats of other groups ({others.length})</summary>
              <div class="carry-tiles">{others.map((quadrat) => tile(quadrat))}</div>
            </details>
          )}
          <ScanCard survey={survey} />
          <TakenList survey={survey} spots={spots} group={choices.group} />
        </>
      )}
      <details class="carry-more" id="meters">
        <summary>
          {meters.length > 0 ? 'Meters' : 'The meter has no connection: its values are typed in'}
        </summary>
        {meters.length > 0 && <CarriedChoice survey={survey} isFirst={false} />}
        <AddTypedMeter survey={survey} />
      </details>
    </>
  )
}

/** Where this group was last, by what the hub keeps and what waits on this phone. */
function lastVisited(group: string | null, spots: ReturnType<typeof useSpots>): string | null {
  const newest = unsent.value.at(-1)
  if (newest) return newest.spot.quadrat
  return spots?.find(({ spot }) => (spot.by ?? null) === group && !spot.isTakenBack)?.spot.quadrat ?? null
}

function walkOrder({ quadrats, walk }: SurveyFile): SurveyFile['quadrats'] {
  if (!walk) return quadrats
  const place = (label: string) => (walk.includes(label) ? walk.indexOf(label) : walk.length)
  return quadrats.toSorted((one, other) => place(one.label) - place(other.label))
}
