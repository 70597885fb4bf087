import { useEffect, useRef, useState } from 'preact/hooks'
import { hubMs, hubNowMs } from '../hub-clock.ts'
import { hub } from '../notebook.ts'
import type { AboutHold } from './about-hold.ts'
import { call, readyTone, stayAwake } from './attention.ts'
import { capturesOf, type Draft, draftKey, newDraft, withoutLastRound, withRound } from './capture.ts'
import { newCaptureId } from './capture-id.ts'
import { choicesOf } from './choices.ts'
import { HeldList } from './held-list.tsx'
import { HoldBar } from './hold-bar.tsx'
import { holdState } from './hold-state.ts'
import { HoldStill } from './hold-still.tsx'
import { arrivedMs, channelOf, readingsOf } from './live-readings.ts'
import { probeNow } from './meter-now.ts'
import { drafts, finishDraft, keepDraft } from './on-this-phone.ts'
import { unsteadyAfterSeconds } from './steady-rule.ts'

/** Hold still, keep, put it in again: as often as the survey wants. */
export function HoldPage(about: AboutHold) {
  const { survey, label, meter, replicates, group } = about
  const choices = choicesOf(survey.id)
  const [said, setSaid] = useState('')
  const isFinishing = useRef(false)
  const keptFrom = useRef(-1)
  const section = useRef<HTMLElement>(null)
  const heard = meter.probes.map((probe) => {
    const channel = channelOf(probe)
    return { probe, channel, readings: channel ? readingsOf(channel.id).value : [] }
  })
  const fresh = useRef<Draft | null>(null)
  fresh.current ??= newDraft(
    { survey: survey.id, quadrat: label, meter: meter.id, markMs: newestOf(heard) },
    meter.probes.map(({ id }) => id),
    newCaptureId,
  )
  const draft = drafts.value.get(draftKey(survey.id, label, meter.id)) ?? fresh.current
  // how long this insertion is held is told by time passing here, whatever any clock says; where it begins, by the
  // readings' own times
  const [since, setSince] = useState({ round: draft.rounds.length, atMs: performance.now() })
  const [markMs, setMark] = useState(draft.markMs)
  const mark = Math.max(markMs, draft.markMs)
  const probes = heard.map(({ probe, channel, readings }) =>
    probeNow(probe, readings, mark, {
      signal: channel?.signalUnit ?? '',
      value: channel?.valueUnit ?? null,
    }),
  )
  const heldSeconds = ((performance.now() - since.atMs) / 1000) * (hub.value?.speed ?? 1)
  const isSteady = probes.every(({ settling }) => settling.isSteady)
  const patienceSeconds = unsteadyAfterSeconds(probes.map(({ rule }) => rule))
  const quietMs =
    hubMs.value - Math.max(0, ...heard.map(({ channel }) => (channel ? arrivedMs(channel.id) : 0)))
  const state = holdState({
    isSteady,
    hasWindow: probes.some(({ window }) => window !== null),
    hasMoved: probes.some(({ hasMoved }) => hasMoved),
    isAutomatic: choices.isAutomatic,
    heldSeconds,
    patienceSeconds,
    quietMs,
  })
  const round = draft.rounds.length + 1

  const finish = async (done: Draft) => {
    if (isFinishing.current) return
    isFinishing.current = true
    const captures = capturesOf(done, group, hubNowMs(), (id) => {
      const of = heard.find(({ probe }) => probe.id === id)
      return { quantity: of?.probe.quantity ?? '', unit: of?.channel?.valueUnit ?? '' }
    })
    await finishDraft(done, captures)
    about.onFinished(captures)
  }
  const startAgain = () => {
    setMark(Math.max(mark, newestOf(heard)))
    setSince({ round: draft.rounds.length, atMs: performance.now() })
  }
  const keep = async () => {
    const parts = probes.flatMap(({ probe, window }) => (window ? [{ probe: probe.id, ...window }] : []))
    // a second tap on the way down is not a second replicate
    if (parts.length === 0 || isFinishing.current || keptFrom.current === mark) return
    keptFrom.current = mark
    const kept = withRound(draft, parts)
    call('kept', choices.isMuted)
    startAgain()
    if (kept.rounds.length >= replicates) {
      await keepDraft(kept)
      await finish(kept)
      return
    }
    setSaid(`Replicate ${kept.rounds.length} is kept. Lift it out, put it in again 10 cm further.`)
    await keepDraft(kept)
  }

  useEffect(stayAwake, [])
  useEffect(() => {
    // ring and button fit on a phone once the cover is scrolled away
    const timer = requestAnimationFrame(() => section.current?.closest('.carry')?.scrollIntoView())
    return () => cancelAnimationFrame(timer)
  }, [])
  useEffect(() => {
    // all replicates were held, and the phone went to sleep before they were on their way
    if (draft.rounds.length >= replicates) void finish(draft)
  }, [])
  useEffect(() => {
    if (isSteady) call('steady', choices.isMuted)
  }, [isSteady])
  const keepsItself = state.keepsItself && round <= replicates
  useEffect(() => {
    if (keepsItself) void keep()
  }, [keepsItself])

  return (
    <section ref={section} class="carry-hold" aria-label={`Hold still at ${label}`} onPointerDown={readyTone}>
      {about.already.some(({ state }) => state === 'done') && draft.rounds.length === 0 && (
        <p class="carry-note">
          {label} has {about.already[0]!.got} of {about.already[0]!.needed} already; what is kept now is
          added.
        </p>
      )}
      <HoldStill
        probes={probes}
        readings={heard.map(({ readings }) => readings)}
        heldSeconds={heldSeconds}
        quietMs={quietMs}
        round={round}
        replicates={replicates}
      />
      <HeldList
        meter={meter}
        rounds={draft.rounds}
        replicates={replicates}
        unitOf={(id) => probes.find(({ probe }) => probe.id === id)?.unit ?? ''}
        onTakeBack={() => {
          setSaid(`Replicate ${draft.rounds.length} is taken back.`)
          void keepDraft(withoutLastRound(draft))
        }}
        onEnough={() => void finish(draft)}
      />
      <HoldBar
        survey={survey.id}
        round={round}
        replicates={replicates}
        state={state}
        forceInSeconds={Math.max(0, patienceSeconds - heldSeconds)}
        said={said}
        onKeep={() => void keep()}
        onStartAgain={startAgain}
      />
    </section>
  )
}

/** The time of the newest reading heard, by its own clock. */
function newestOf(heard: readonly { readings: readonly { timeMs: number }[] }[]): number {
  return Math.max(0, ...heard.map(({ readings }) => readings.at(-1)?.timeMs ?? 0))
}
