import type { Study } from '../../study/study.ts'
import type { SummaryWish } from '../../study/summary/summarise.ts'
import { BUNDLE_PATHS } from './bundle-form.ts'

/**
 * What a study comes to, by the path of each result in a bundle; the same code makes them and works them out again.
 * `join` is null without a table of species.
 */
export async function bundleResults(study: Study, wish: SummaryWish): Promise<ReadonlyMap<string, unknown>> {
  const hasSpecies = (await study.species()) !== null
  return new Map<string, unknown>([
    [BUNDLE_PATHS.summary, study.summary(wish)],
    [BUNDLE_PATHS.join, hasSpecies ? await study.join(wish) : null],
    [BUNDLE_PATHS.statistics, await study.statistics(wish)],
    [BUNDLE_PATHS.catches, await study.catches()],
  ])
}
