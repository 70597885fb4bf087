import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { listPorts } from '../../../hub/sources/list-ports.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

const noSuchProgram = () =>
  Promise.reject(
    Object.assign(new Error('spawn udevadm ENOENT'), { code: 'ENOENT', syscall: 'spawn udevadm' }),
  )

const devices = (...names: string[]): string => {
  const folder = temporaryFolder()
  for (const name of names) writeFileSync(join(folder, name), '')
  return folder
}

test('without udevadm, ports are read from the device folder, and the list says what to install', async () => {
  const folder = devices('ttyUSB0', 'ttyACM3', 'ttyAMA0', 'ttyUSB10', 'ttyS0', 'tty1', 'null', 'ttyUSBx')
  const { ports, trouble } = await listPorts(folder, noSuchProgram)
  expect(ports.map(({ path }) => path)).toEqual(
    ['ttyACM3', 'ttyAMA0', 'ttyUSB0', 'ttyUSB10'].map((name) => join(folder, name)),
  )
  expect(trouble).toMatch(/^E_PORT_LIST: .*udevadm is missing.*apt install udev/)
})

test('the names under serial/by-id tell which board is behind a port', async () => {
  const folder = devices('ttyUSB0', 'ttyACM0')
  const byId = join(folder, 'serial/by-id')
  mkdirSync(byId, { recursive: true })
  symlinkSync('../../ttyUSB0', join(byId, 'usb-1a86_USB_Serial-if00-port0'))
  writeFileSync(join(byId, 'no-link'), '')
  const { ports } = await listPorts(folder, noSuchProgram)
  expect(ports).toEqual([
    { path: join(folder, 'ttyACM0') },
    { path: join(folder, 'ttyUSB0'), serialNumber: 'usb-1a86_USB_Serial-if00-port0' },
  ])
})

test('a machine without any device folder has no ports, and no failure', async () => {
  const { ports, trouble } = await listPorts(join(temporaryFolder(), 'none'), noSuchProgram)
  expect(ports).toEqual([])
  expect(trouble).toContain('apt install udev')
})

test('where udevadm is there, its own words for maker, serial number and USB id are passed on', async () => {
  const port = (path: string) => ({
    path,
    manufacturer: undefined,
    serialNumber: undefined,
    pnpId: undefined,
    locationId: undefined,
    productId: undefined,
    vendorId: undefined,
  })
  const known = { manufacturer: 'Arduino', serialNumber: '75736', vendorId: '2341', productId: '0043' }
  const answer = await listPorts('/nowhere', async () => [
    { ...port('/dev/ttyACM0'), ...known },
    { ...port('/dev/ttyS0'), vendorId: '2341' },
  ])
  expect(answer).toEqual({
    ports: [
      { path: '/dev/ttyACM0', maker: 'Arduino', serialNumber: '75736', usbId: '2341:0043' },
      { path: '/dev/ttyS0' },
    ],
    trouble: null,
  })
})

test('another failure than a missing program is not taken for one', async () => {
  const refused = () => Promise.reject(Object.assign(new Error('spawn EACCES'), { code: 'EACCES' }))
  await expect(listPorts('/nowhere', refused)).rejects.toThrow('EACCES')
})

test('the library itself, on this machine, gives a list either way', async () => {
  const { ports, trouble } = await listPorts()
  expect(Array.isArray(ports)).toBe(true)
  expect(trouble === null || trouble.includes('apt install udev')).toBe(true)
})
