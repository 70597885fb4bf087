import { describe, expect, it } from 'vitest'
import { calibrationId, checkId } from '../../dashboard/bench/calibration-id.ts'
import { benchPath } from '../../dashboard/bench/places.ts'
import { dayAt, momentOf, wallTime } from '../../dashboard/bench/wall-time.ts'
import { placeOf } from '../../dashboard/router.ts'

describe('addresses of the bench', () => {
  it('lead back to the page they were made for, whatever the names hold', () => {
    expect(placeOf(benchPath.sheet)).toEqual({ page: 'bench' })
    for (const task of ['calibrate', 'check', 'records'] as const)
      expect(placeOf(benchPath.probe('wood edge/2', 'ph 1', task))).toEqual({
        page: 'bench-probe',
        survey: 'wood edge/2',
        probe: 'ph 1',
        task,
      })
    expect(placeOf(benchPath.record('s', 'ph-1', 'ph-1-20260612-0930'))).toEqual({
      page: 'bench-record',
      survey: 's',
      probe: 'ph-1',
      calibration: 'ph-1-20260612-0930',
    })
  })

  it('are nowhere when they are cut short or lead on', () => {
    for (const path of ['/bench/s', '/bench/s/p/record', '/bench/s/p/other', '/bench/s/p/record/c/more'])
      expect(placeOf(path)).toEqual({ page: 'nowhere', path })
  })
})

describe('names of calibrations and checks', () => {
  const at = Date.parse('2026-06-12T07:30:00Z')
  it('carry the day and minute of the site’s clock', () => {
    expect(calibrationId('ph-1', at, [], 'Europe/Vienna')).toBe('ph-1-20260612-0930')
    expect(checkId('ph-1', at, [], 'UTC')).toBe('ph-1-check-20260612-0730')
  })
  it('stay unique within a minute', () => {
    const taken = ['ph-1-20260612-0730', 'ph-1-20260612-0730-2']
    expect(calibrationId('ph-1', at, taken, 'UTC')).toBe('ph-1-20260612-0730-3')
  })
  it('keep the time when a long probe name must give way to 64 letters', () => {
    const id = calibrationId('p'.repeat(64), at, [], 'UTC')
    expect(id).toHaveLength(64)
    expect(id.endsWith('-20260612-0730')).toBe(true)
    expect(id).toMatch(/^[A-Za-z0-9]/)
  })
})

describe('wall clock of the site', () => {
  it('goes to a moment and back in every season', () => {
    for (const zone of ['Europe/Vienna', 'UTC', 'Asia/Kathmandu', 'Pacific/Auckland', 'America/St_Johns'])
      for (const text of ['2026-01-05T23:59', '2026-06-12T00:00', '2026-10-25T12:15'])
        expect(wallTime(momentOf(text, zone)!, zone)).toBe(text)
  })
  it('takes the first of a doubled hour in autumn', () => {
    expect(momentOf('2026-10-25T02:30', 'Europe/Vienna')).toBe(Date.parse('2026-10-25T00:30:00Z'))
  })
  it('gives a moment near an hour that spring leaves out', () => {
    const moment = momentOf('2026-03-29T02:30', 'Europe/Vienna')!
    expect(Math.abs(moment - Date.parse('2026-03-29T01:00:00Z'))).toBeLessThanOrEqual(3_600_000)
  })
  it('refuses what is no time', () => {
    for (const text of ['', '2026-06-12', '2026-13-40T99:99', 'noon'])
      expect(momentOf(text, 'UTC')).toBeNull()
  })
  it('knows the day at the site', () => {
    expect(dayAt(Date.parse('2026-06-12T22:30:00Z'), 'Europe/Vienna')).toBe('2026-06-13')
  })
})
