/**
 * Loaded into a hub (`--import`): each thread writes its event loop's delay of the last second to a file, one line a
 * second. The environment variable LOOP_PROBE names the folder.
 */
import { appendFileSync } from 'node:fs'
import { join } from 'node:path'
import { monitorEventLoopDelay } from 'node:perf_hooks'
import { threadId, workerData } from 'node:worker_threads'

const folder = process.env.LOOP_PROBE
if (folder) {
  const thread = threadId === 0 ? 'main' : workerData?.pageFolder ? 'page' : `thread-${threadId}`
  const histogram = monitorEventLoopDelay({ resolution: 1 })
  histogram.enable()
  setInterval(() => {
    const ms = (nanoseconds) => nanoseconds / 1e6
    const line = {
      p50: ms(histogram.percentile(50)),
      p99: ms(histogram.percentile(99)),
      max: ms(histogram.max),
    }
    appendFileSync(join(folder, `${thread}.jsonl`), `${JSON.stringify(line)}\n`)
    histogram.reset()
  }, 1000).unref()
}
