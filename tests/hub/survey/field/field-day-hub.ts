import { Door } from '../../../../hub/access/door.ts'
import { answerDesk, type DeskParts } from '../../../../hub/answer-desk.ts'
import { makeApp } from '../../../../hub/http/app.ts'
import { LiveStream } from '../../../../hub/http/live-stream.ts'
import type { PageSide } from '../../../../hub/http/page-side.ts'
import { appraiseWith } from '../../../../hub/intake/appraise.ts'
import { BoardWatch } from '../../../../hub/intake/board-watch.ts'
import { Intake } from '../../../../hub/intake/intake.ts'
import { isTypedSource } from '../../../../hub/intake/typed-frame.ts'
import type { Frame } from '../../../../hub/sources/source.ts'
import { quietState } from '../../../support/quiet-state.ts'
import { SmallHub } from '../../../support/small-hub.ts'

/**
 * A small hub with its real intake, watch over boards, desk and routes, on a folder that it can be opened on again. The
 * time is set from outside; work that is due waits until {@link workOff}.
 */
export class FieldDayHub {
  readonly hub: SmallHub
  readonly watch = new BoardWatch()
  nowMs: number
  readonly #intake: Intake
  readonly #side: PageSide
  readonly #app: ReturnType<typeof makeApp>

  constructor(folder: string, nowMs: number) {
    this.nowMs = nowMs
    this.hub = new SmallHub(folder)
    const { writer, reader, keeper } = this.hub
    this.#intake = new Intake(writer, folder, appraiseWith(keeper.timelines), keeper.columnsOf, {
      isWatched: () => false,
      committed: (items, outcomes) => {
        for (const [place, item] of items.entries())
          if ('signals' in item && !isTypedSource(item.source))
            this.watch.heard(
              item.board,
              item.source,
              item.arrivedMs,
              item.startup,
              item.number,
              outcomes[place]!.kind === 'repeat',
            )
      },
      trouble: (text) => {
        if (text !== null) throw new Error(text)
      },
    })
    const judgeAnew = () =>
      this.#intake.use(appraiseWith(keeper.timelines), keeper.columnsOf, keeper.clockShift)
    judgeAnew()
    this.#side = {
      reader,
      desk: answerDesk({
        keeper,
        nowMs: () => this.nowMs,
        surveysChanged: judgeAnew,
        spotsChanged: judgeAnew,
        receive: this.#intake.receive,
      } as unknown as DeskParts),
      stream: new LiveStream(
        () => this.nowMs,
        () => reader.lastMessageId(),
        (after, atMost) => reader.readingsAfter(after, atMost),
      ),
      timelines: () => keeper.timelines,
      state: () => ({ ...quietState, boards: this.watch.seen() }),
      nowMs: () => this.nowMs,
      addresses: () => [],
      door: new Door({ teacher: null, classCode: null }),
      access: { isOnNetwork: false, isSecure: false, hostNames: () => [] },
      facts: { version: '0', isRehearsal: false, speed: 1 },
      pageFolder: folder,
    }
    this.#app = makeApp(this.#side)
  }

  /** @returns the lines the boards are answered with, once all of it is durable */
  async receive(frames: readonly Frame[]): Promise<string[]> {
    const settled = frames.map(
      (frame) =>
        new Promise<readonly string[]>((resolve, reject) => {
          this.#intake.receive(frame, (error, replies) => (error ? reject(error) : resolve(replies())))
        }),
    )
    return (await Promise.all(settled)).flat()
  }

  /** What a page gets. A question goes to routes made anew: they answer for a while what they answered before. */
  async ask<Answer>(path: string, body?: unknown): Promise<Answer> {
    const init = {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body),
    }
    const response =
      body === undefined ? await makeApp(this.#side).request(path) : await this.#app.request(path, init)
    const answer = await response.json()
    if (response.status !== 200) throw new Error(`${path}: ${JSON.stringify(answer)}`)
    return answer as Answer
  }

  /** Times first, then values, then flags, as the running hub does. */
  workOff(): void {
    while (this.hub.writer.reclockSome(this.hub.keeper.clockWork) !== null);
    this.hub.recompute()
    this.hub.review()
  }

  close(): void {
    this.#side.stream.close()
    this.hub.close()
  }
}
