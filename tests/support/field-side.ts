import { Door } from '../../hub/access/door.ts'
import { answerDesk, type DeskParts } from '../../hub/answer-desk.ts'
import type { SurveyFile } from '../../hub/contract/survey.ts'
import { makeApp } from '../../hub/http/app.ts'
import { LiveStream } from '../../hub/http/live-stream.ts'
import type { PageSide } from '../../hub/http/page-side.ts'
import { quietState } from './quiet-state.ts'
import { SmallHub } from './small-hub.ts'
import { temporaryFolder } from './temporary-folder.ts'

/** A small hub with its pages' side and the real desk, on one thread, at a time that stands still until it is set. */
export class FieldSide {
  readonly hub: SmallHub
  readonly side: PageSide
  readonly app: ReturnType<typeof makeApp>
  nowMs: number

  constructor(survey: SurveyFile, nowMs: number) {
    const folder = temporaryFolder()
    this.hub = new SmallHub(folder)
    this.nowMs = nowMs
    const { reader, keeper } = this.hub
    const desk = answerDesk({
      keeper,
      nowMs: () => this.nowMs,
      surveysChanged: () => undefined,
    } as unknown as DeskParts)
    this.side = {
      reader,
      desk,
      stream: new LiveStream(
        () => this.nowMs,
        () => reader.lastMessageId(),
        (after, atMost) => reader.readingsAfter(after, atMost),
      ),
      timelines: () => keeper.timelines,
      state: () => quietState,
      nowMs: () => this.nowMs,
      addresses: () => [],
      door: new Door({ teacher: null, classCode: null }),
      access: { isOnNetwork: false, isSecure: false, hostNames: () => [] },
      facts: { version: '0', isRehearsal: false, speed: 1 },
      pageFolder: folder,
    }
    this.app = makeApp(this.side)
    keeper.save(survey, 'test')
  }

  /** The JSON a path gives, and its status. */
  async ask(path: string, body?: unknown): Promise<{ status: number; answer: never }> {
    const init = {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(body ?? {}),
    }
    const response = await this.app.request(path, body === undefined ? undefined : init)
    return { status: response.status, answer: (await response.json()) as never }
  }

  close(): void {
    this.side.stream.close()
    this.hub.close()
  }
}
