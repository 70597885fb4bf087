import { expect, test } from 'vitest'
import { leaveReport } from '../../../hub/cli/leave-report.ts'
import type { Leave } from '../../../hub/contract/field.ts'
import { exampleSurvey } from '../../support/example-survey.ts'
import { startHub } from '../../support/running-hub.ts'
import { temporaryFolder } from '../../support/temporary-folder.ts'
import { runTussock } from '../../support/tussock-command.ts'

test('the report says the decision first, then the way round, then what is easily forgotten', () => {
  const leave: Leave = {
    nowMs: 0,
    maySafelyGo: false,
    sentence: 'Not yet: 2 things, about 5 minutes',
    things: 2,
    minutes: 5.1,
    at: 'Q3',
    stops: [
      {
        quadrat: 'Q4',
        metres: 2.5,
        minutes: 2.06,
        groups: ['G2'],
        things: [{ kind: 'measure', words: 'soil pH: 1 more', quantity: 'soil_ph', of: null, minutes: 2 }],
      },
    ],
    elsewhere: [{ kind: 'board', words: 'board sky is silent', quantity: null, of: 'sky', minutes: 3 }],
    silent: [],
    traps: [],
    staying: [],
    reminders: [{ kind: 'count', words: 'Count them in.' }],
  }
  expect(leaveReport(leave).split('\n')).toEqual([
    'Not yet: 2 things, about 5 minutes',
    'Q4  (2.5 m to walk; about 2 min; G2)',
    '    soil pH: 1 more',
    'at no quadrat',
    '    board sky is silent',
    'Count them in.',
  ])
})

test('tussock leave asks the running hub, and exits 1 while the class may not go', async () => {
  const hub = await startHub()
  await hub.send('PUT', '/api/surveys/example', exampleSurvey())
  const data = ['--data', hub.dataFolder]
  const made = await runTussock('leave', '--at', 'Q2', ...data)
  // its board has never been heard
  expect(made.code).toBe(1)
  expect(made.stdout).toMatch(/^Not yet: \d+ things?, about \d+ minutes\nQ1 {2}\(10 m to walk/)
  expect(made.stdout).toContain('board sedge-1 is silent')
  const elsewhere = await runTussock('leave', '--at', 'Q9', ...data)
  expect(elsewhere.code).toBe(2)
  expect(elsewhere.stderr).toMatch(/^E_NOT_FOUND: Survey "example" has no quadrat "Q9"\./)
})

test('without a hub there is nobody to ask', async () => {
  const made = await runTussock('leave', '--data', temporaryFolder())
  expect(made.code).toBe(1)
  expect(made.stderr).toMatch(/^E_NO_HUB: /)
})
