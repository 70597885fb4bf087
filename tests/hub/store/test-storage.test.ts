import { readdirSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { testStorage } from '../../../hub/store/test-storage.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'

test('a file is written, read back and removed; the room on the disk is told', async () => {
  const folder = temporaryFolder()
  const tested = await testStorage(folder)
  expect(tested.trouble).toBeNull()
  expect(tested.freeBytes).toBeGreaterThan(0)
  expect(readdirSync(folder)).toEqual([])
})

test('a folder that cannot be written to is trouble, and says why', async () => {
  const tested = await testStorage(join(temporaryFolder(), 'not-there'))
  expect(tested.trouble).toContain('ENOENT')
  expect(tested.freeBytes).toBeNull()
})
