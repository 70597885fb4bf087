import { expect, test } from 'vitest'
import { exampleSurvey } from '../../support/example-survey.ts'
import { startHub } from '../../support/running-hub.ts'

// first bytes as their formats have them: PNG (ISO/IEC 15948 §5.2), JPEG (ISO/IEC 10918-1 B.1.1.3), ISO/IEC 14496-12 §4.3
test.each([
  ['a PNG', [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]],
  ['a JPEG', [0xff, 0xd8, 0xff, 0xe0, 0, 16]],
  ['a picture of a phone', [0, 0, 0, 0x18, 0x66, 0x74, 0x79, 0x70, 0x68, 0x65, 0x69, 0x63]],
])('%s given for a table is refused and not kept; a table is', async (_, start) => {
  const hub = await startHub()
  await hub.send('PUT', '/api/surveys/example', exampleSurvey())
  const give = (name: string, body: Uint8Array<ArrayBuffer>) =>
    fetch(`${hub.address}/api/surveys/example/sheets?kind=species&name=${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body,
    })
  const refused = await give('class.csv', Uint8Array.from([...start, ...Array(100).fill(7)]))
  expect(refused.status).toBe(400)
  expect(await refused.json()).toMatchObject({ error: { message: expect.stringContaining('a picture') } })
  expect(await hub.get('/api/surveys/example/sheets')).toEqual({ sheets: [] })
  expect((await give('table.csv', new TextEncoder().encode('Quadrat,Ivy\nQ1,12\n'))).status).toBe(200)
  await hub.stop()
})
