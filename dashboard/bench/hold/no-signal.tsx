import type { Probe } from '../../../hub/contract/survey.ts'
import { pathTo } from '../../router.ts'

export function NoSignal({ probe }: { probe: Probe }) {
  return (
    <section class="hold-none">
      <p>
        Nothing has been heard of channel “{probe.channel}” of board {probe.board} yet. Plug the probe in and
        switch the board on; its signal appears here by itself.
      </p>
      <p>
        <a class="button plain" href={pathTo.boards}>
          Look at the boards
        </a>
      </p>
    </section>
  )
}
