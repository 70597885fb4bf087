import { describe, expect, test } from 'vitest'
import { drawPicture, NARROWEST_PX, WIDEST_PX } from '../../../../hub/study/pictures/draw-picture.ts'
import { type PictureWish, pictureMaterial } from '../../../../hub/study/pictures/picture-material.ts'
import { PICTURES, type PictureName } from '../../../../hub/study/pictures/picture-names.ts'
import { Study } from '../../../../hub/study/study.ts'
import { ShadeHub, SPECIES_SHEET, shadeSurvey } from '../report/shade-survey.ts'
import { overflowing, readSvg } from './read-svg.ts'

const NAMES = Object.keys(PICTURES) as PictureName[]
const HOSTILE = `<script>"&'`

function materialOf({ hub }: ShadeHub, wish: PictureWish = {}) {
  const study = new Study(hub.reader, hub.keeper.timelines, hub.keeper.named('shade'))
  return pictureMaterial(study, wish)
}

describe('every picture', () => {
  test.each([NARROWEST_PX, 800, WIDEST_PX])(
    'at %d px is well-formed, stands by itself and keeps inside',
    async (widthPx) => {
      const material = await materialOf(new ShadeHub())
      for (const name of NAMES) {
        const svg = drawPicture(name, material, { widthPx })
        const elements = readSvg(svg)
        expect(overflowing(elements), name).toEqual([])
        expect(elements[0]!.attributes).toMatchObject({ width: String(widthPx), role: 'img' })
        expect(
          elements.some((each) => each.name === 'title') && elements.some((each) => each.name === 'desc'),
        ).toBe(true)
        expect(svg).not.toMatch(/foreignObject|<image|<style|href=|http(?!:\/\/www\.w3\.org\/2000\/svg)/)
        expect(svg).not.toContain('NaN')
      }
    },
  )

  test('of a survey with hostile names shows them as names', async () => {
    const survey = shadeSurvey({
      transects: [
        {
          id: 'T1',
          name: HOSTILE,
          lengthMetres: 16,
          zones: [
            { name: HOSTILE, fromMetres: 0, toMetres: 7 },
            { name: 'open', fromMetres: 7, toMetres: 16 },
          ],
        },
      ],
    })
    const sheet = SPECIES_SHEET.replace('bramble', `"${HOSTILE.replace('"', '""')}"`)
    const material = await materialOf(new ShadeHub(survey, sheet))
    for (const name of NAMES) {
      const elements = readSvg(drawPicture(name, material))
      expect(
        elements.some((each) => each.name === 'script'),
        name,
      ).toBe(false)
      expect(overflowing(elements), name).toEqual([])
    }
    const profile = readSvg(drawPicture('transect-profile', material))
    expect(profile.some(({ name, text }) => name === 'text' && text === HOSTILE)).toBe(true)
  })

  test('of a survey without readings and species says what is missing', async () => {
    const material = await materialOf(new ShadeHub(shadeSurvey({ placements: [], calibrations: [] }), null))
    for (const name of NAMES) expect(readSvg(drawPicture(name, material)).length, name).toBeGreaterThan(3)
    expect(drawPicture('scatter', material)).toContain('needs quadrats that have both')
  })
})

test('a scatter plot has n, ρ, labels and interval bars; ρ is hidden when it is held back', async () => {
  const hub = new ShadeHub()
  const wish = { factors: ['Soil pH'], species: ['grass'] }
  const texts = readSvg(drawPicture('scatter', await materialOf(hub, wish))).map(({ text }) => text)
  expect(texts).toContain('Q4')
  expect(texts.some((text) => text.startsWith('n = 8, ρ = 0.99'))).toBe(true)
  const held = drawPicture('scatter', await materialOf(hub, { ...wish, isVerdictHeldBack: true }))
  expect(held).toContain('n = 8')
  expect(held).not.toContain('ρ')
})

test('the profile breaks the kite of ivy at Q6, where it was not recorded', async () => {
  const elements = readSvg(
    drawPicture(
      'transect-profile',
      await materialOf(new ShadeHub(), { species: ['ivy'], factors: ['Soil pH'] }),
    ),
  )
  const outlines = elements.filter(
    ({ name, attributes }) => name === 'path' && attributes['d']?.endsWith('Z'),
  )
  expect(outlines).toHaveLength(2)
  expect(elements.filter(({ text }) => text === '?')).toHaveLength(1)
})

test('a factor or species that is not there is refused by name, with what there is', async () => {
  const hub = new ShadeHub()
  await expect(materialOf(hub, { factors: ['Soil Ph'] })).rejects.toMatchObject({
    code: 'E_QUERY',
    message: expect.stringContaining('“Soil pH”'),
  })
  await expect(materialOf(hub, { species: ['oak'] })).rejects.toMatchObject({ code: 'E_QUERY' })
  await expect(materialOf(hub, { transect: 'T9' })).rejects.toMatchObject({ code: 'E_QUERY' })
})
