/**
 * Phones that watch the live stream: arguments address, how many. Prints `ready` when all are open; when its input ends,
 * as JSON, how many readings each was sent, how many twice, and how often it was told to fetch everything anew.
 */
const [address, count] = [process.argv[2], Number(process.argv[3])]

async function watch() {
  const response = await fetch(`${address}/api/stream`)
  const phone = { readings: 0, twice: 0, anew: 0 }
  const read = async () => {
    let lastMessage = 0
    let text = ''
    for await (const chunk of response.body.pipeThrough(new TextDecoderStream())) {
      const events = (text + chunk).split('\n\n')
      text = events.pop()
      for (const event of events) {
        if (event.startsWith('event: resync')) phone.anew++
        if (!event.startsWith('event: readings')) continue
        const { rows } = JSON.parse(event.slice(event.indexOf('data: ') + 'data: '.length))
        const before = lastMessage
        for (const [id] of rows) {
          const message = Math.floor(id / 1024)
          if (message <= before) phone.twice++
          else phone.readings++
          lastMessage = Math.max(lastMessage, message)
        }
      }
    }
  }
  void read().catch(() => {})
  return phone
}

const phones = []
for (let index = 0; index < count; index++) phones.push(await watch())
console.log('ready')
process.stdin.on('data', (text) => {
  if (text.toString().includes('stop')) {
    console.log(`phones ${JSON.stringify(phones)}`)
    process.exit()
  }
})
