import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { placeText } from '../format.ts'
import { pathTo } from '../router.ts'
import type { Capture } from './capture.ts'
import { choicesOf } from './choices.ts'
import { DonePanel } from './done-panel.tsx'
import { groupsOfQuadrat, isOfOthers, quadratsOfGroup } from './group-label.ts'
import { HoldPage } from './hold-page.tsx'
import { MeterChoice } from './meter-choice.tsx'
import { chosenMeter, metersOf } from './meters.ts'
import { nextQuadrat } from './next-quadrat.ts'
import { unsent } from './on-this-phone.ts'
import { isDoneFor, progressAt, replicatesFor, wantedByCarrying } from './progress.ts'
import { TypePage } from './type-page.tsx'
import { useSpots } from './use-spots.ts'

/** One quadrat with the meter in hand: hold or type, then on to the next. */
export function QuadratPage({ survey, label }: { survey: SurveyFile; label: string }) {
  const [finished, setFinished] = useState<readonly Capture[] | null>(null)
  const spots = useSpots(survey.id)
  const { group, meter: remembered } = choicesOf(survey.id)
  const meters = metersOf(survey)
  const meter = chosenMeter(meters, remembered)
  const quadrat = survey.quadrats.find((each) => each.label === label)
  const back = (
    <a class="button plain carry-back" href={pathTo.carry(survey.id)}>
      All quadrats
    </a>
  )
  if (!quadrat)
    return (
      <>
        <h1>There is no quadrat {label}</h1>
        <p>The card may be of another survey, or the plan was changed since it was printed.</p>
        {back}
      </>
    )
  const wanted = wantedByCarrying(survey, meters)
  const progressOf = (of: string) => progressAt(of, wanted, spots ?? [], unsent.value, survey.probes)
  const own = quadratsOfGroup(survey, group)
  const next = meter && nextQuadrat(survey, own, label, (other) => isDoneFor(progressOf(other), meter))
  const head = (
    <header class="carry-head">
      {back}
      <h1>{label}</h1>
      <p>
        {placeText(quadrat)}
        {isOfOthers(survey, group, label) && (
          <b> · this is a quadrat of {groupsOfQuadrat(survey, label).join(', ')}</b>
        )}
      </p>
    </header>
  )
  if (quadrat.lifted)
    return (
      <>
        {head}
        <p class="carry-strip is-trouble">
          The frame of {label} was taken up{quadrat.lifted.reason ? `: ${quadrat.lifted.reason}` : ''}.
          Nothing is measured here any more.
        </p>
      </>
    )
  if (meter === null)
    return (
      <>
        {head}
        {meters.length === 0 ? (
          <p>
            No meter is marked as carried yet. <a href={pathTo.carry(survey.id)}>Say which one is.</a>
          </p>
        ) : (
          <MeterChoice survey={survey} meters={meters} chosen={null} />
        )}
      </>
    )
  const replicates = replicatesFor(wanted, meter)
  const already = progressOf(label).filter(({ quantity }) =>
    meter.probes.some((probe) => probe.quantity === quantity),
  )
  if (finished)
    return (
      <>
        {head}
        <DonePanel
          survey={survey}
          label={label}
          captures={finished}
          spots={spots ?? []}
          next={next?.label ?? null}
          onAgain={() => setFinished(null)}
        />
      </>
    )
  const about = { survey, label, meter, replicates, group, already, onFinished: setFinished }
  return (
    <>
      {head}
      {meter.isTyped ? <TypePage key={meter.id} {...about} /> : <HoldPage key={meter.id} {...about} />}
    </>
  )
}
