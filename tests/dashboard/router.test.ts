import { describe, expect, it } from 'vitest'
import { pathTo, placeOf } from '../../dashboard/router.ts'

describe('placeOf', () => {
  it('reads each place of the notebook', () => {
    expect(placeOf('/')).toEqual({ page: 'home' })
    expect(placeOf('/boards')).toEqual({ page: 'boards' })
    expect(placeOf('/boards/')).toEqual({ page: 'boards' })
    expect(placeOf('/set-up')).toEqual({ page: 'set-up' })
    expect(placeOf('/quarantine')).toEqual({ page: 'quarantine' })
    expect(placeOf('/survey/wood-1')).toEqual({ page: 'survey', survey: 'wood-1' })
  })
  it('is the way back from pathTo, whatever a quadrat is called', () => {
    for (const label of ['Q1', 'Q 1/2', 'Ü%', 'a#b?c'])
      expect(placeOf(pathTo.quadrat('wood.1', label))).toEqual({
        page: 'quadrat',
        survey: 'wood.1',
        quadrat: label,
      })
  })
  it('knows where there is nothing', () => {
    for (const path of ['/survey', '/survey/a/b', '/survey/a/quadrat', '/boards/x', '/else'])
      expect(placeOf(path)).toEqual({ page: 'nowhere', path })
  })
  it('does not fall over a broken escape', () => {
    expect(placeOf('/survey/%E0%A4%A')).toEqual({ page: 'survey', survey: '%E0%A4%A' })
  })
})
