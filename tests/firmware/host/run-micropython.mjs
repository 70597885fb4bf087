/** `run-micropython.mjs SCRIPT` runs it with the Wi-Fi board's files beside it, and standard input as lines.txt. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { loadMicroPython } from '@micropython/micropython-webassembly-pyscript/micropython.mjs'

const folder = (relative) => fileURLToPath(new URL(relative, import.meta.url))
const python = await loadMicroPython({ heapsize: 192 * 1024 })
python.registerJsModule('_host', {})
python.FS.mkdir('/lib')
for (const from of ['../micropython', '../../../firmware-notes/wifi-board'])
  for (const name of readdirSync(folder(from)).filter((file) => file.endsWith('.py')))
    python.FS.writeFile(`/lib/${name}`, readFileSync(`${folder(from)}/${name}`))
python.FS.writeFile('/lines.txt', readFileSync(0))
python.runPython('import sys, _time\nsys.modules["time"] = _time')
try {
  python.runPython(readFileSync(folder(`./${process.argv[2]}`), 'utf8'))
} catch (error) {
  console.log(error.message)
}
