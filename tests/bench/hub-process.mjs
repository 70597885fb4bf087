import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

const command = fileURLToPath(new URL('../../.build/hub/cli/tussock.js', import.meta.url))
const running = new Set()
process.once('exit', () => {
  for (const child of running) child.kill('SIGKILL')
})

/** Starts a process and waits until `pattern` is in what it prints. @returns the process and the match */
export function startProcess(program, args, pattern) {
  const child = spawn(program, args, { stdio: 'pipe' })
  running.add(child)
  child.once('close', () => running.delete(child))
  let printed = ''
  return new Promise((resolve, reject) => {
    const look = (text) => {
      printed += text
      const match = pattern.exec(printed)
      if (match) resolve({ child, match })
    }
    child.stdout.setEncoding('utf8').on('data', look)
    child.stderr.setEncoding('utf8').on('data', look)
    child.once('close', (code) => reject(new Error(`${program} ended with ${code}: ${printed}`)))
  })
}

export function end(child, signal = 'SIGTERM') {
  return new Promise((resolve) => {
    child.once('close', resolve)
    child.kill(signal)
  })
}

/** The built hub, as a process of its own, with node's options as `npm start` gives them. */
export async function startHub(dataFolder, ...more) {
  const args = [
    '--max-semi-space-size=2',
    command,
    'start',
    '--data',
    dataFolder,
    '--port',
    '0',
    '--mqtt-port',
    '0',
    ...more,
  ]
  const { child, match } = await startProcess(
    process.execPath,
    args,
    / {2}open {3}(\S+)[\s\S]*mqtt:\/\/[^:]+:(\d+)[\s\S]*Ctrl\+C/,
  )
  return { address: match[1], mqttPort: Number(match[2]), pid: child.pid, stop: () => end(child) }
}
