/** A program of the machine that can make a pseudo-terminal, and how it is asked to. */
export interface TerminalRecipe {
  readonly name: string
  readonly command: string
  readonly args: readonly string[]
}

/**
 * Runs inside the new terminal: makes it raw, says its path and its own process number, then only keeps it open.
 * It looks after the rehearsal every second, so that a rehearsal that was killed leaves no process behind.
 */
function keeper(rehearsalPid: number): string {
  return [
    'stty raw -echo',
    'echo "$(tty) $$"',
    `while kill -0 ${rehearsalPid} 2>/dev/null; do sleep 1 </dev/null >/dev/null 2>&1; done`,
  ].join('; ')
}

const pythonKeeper = `
import os, select, tty
master, slave = os.openpty()
tty.setraw(slave)
os.write(1, (os.ttyname(slave) + ' ' + str(os.getpid()) + '\\n').encode())
def put(target, data):
    while data:
        data = data[os.write(target, data):]
while True:
    ready, _, _ = select.select([0, master], [], [])
    if master in ready:
        put(1, os.read(master, 4096))
    if 0 in ready:
        data = os.read(0, 4096)
        if not data:
            break
        put(master, data)
`

/**
 * Ways to a pseudo-terminal, best first. Node itself has none. `script` is part of every Debian;
 * the `script` of macOS takes its command as further arguments.
 */
export function terminalRecipes(rehearsalPid: number, platform: NodeJS.Platform): TerminalRecipe[] {
  const inside = keeper(rehearsalPid)
  const scriptArgs =
    platform === 'linux' ? ['-qfec', inside, '/dev/null'] : ['-q', '/dev/null', '/bin/sh', '-c', inside]
  return [
    { name: 'script', command: 'script', args: scriptArgs },
    { name: 'python3', command: 'python3', args: ['-c', pythonKeeper] },
  ]
}
