import type { z } from 'zod'
import type { pictureQuery, reportQuery } from '../../contract/report-api.ts'
import type { PictureWish } from '../pictures/picture-material.ts'
import type { ReportWish } from './report-facts.ts'

const BETWEEN_NAMES = '|'

/** What a query asks for, from the page and the command line alike. */
export function reportWishOf(query: z.infer<typeof reportQuery>): ReportWish {
  return {
    window: query.window,
    withHydrogenIons: query.hydrogenIons === 'yes',
    aim: query.aim === undefined || query.aim === '' ? null : query.aim,
    areVerdictsShown: query.verdicts === 'yes',
    coordinates: query.coordinates,
    isForChecking: query.check === 'yes',
    ...namesOf('factors', query.factors),
    ...namesOf('species', query.species),
  }
}

export function pictureWishOf(query: z.infer<typeof pictureQuery>): PictureWish {
  return {
    window: query.window,
    withHydrogenIons: query.hydrogenIons === 'yes',
    widthPx: query.width,
    isVerdictHeldBack: query.heldBack === 'yes',
    ...(query.transect === undefined ? {} : { transect: query.transect }),
    ...namesOf('factors', query.factors),
    ...namesOf('species', query.species),
  }
}

function namesOf<Key extends 'factors' | 'species'>(
  key: Key,
  text: string | undefined,
): Partial<Record<Key, string[]>> {
  if (text === undefined || text === '') return {}
  return { [key]: text.split(BETWEEN_NAMES) } as Partial<Record<Key, string[]>>
}
