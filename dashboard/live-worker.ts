import { openLine } from './live-line.ts'
import { type FromTab, SharedLine, type ToTab } from './share-line.ts'

// A worker that all tabs of a browser share: a browser holds six lines to one host, and a line a tab would use them up.

const shared = new SharedLine<MessagePort>(openLine, (tab, message: ToTab) => tab.postMessage(message))

addEventListener('connect', (event) => {
  const [tab] = (event as MessageEvent).ports
  if (!tab) return
  tab.onmessage = ({ data }: MessageEvent<FromTab>) => {
    if (data.kind === 'join') shared.join(tab, data.since)
    else shared.leave(tab)
  }
})
