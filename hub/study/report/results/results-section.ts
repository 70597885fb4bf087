import { canBeDrawn, drawPicture } from '../../pictures/draw-picture.ts'
import type { PictureName } from '../../pictures/picture-names.ts'
import type { ReportFacts } from '../report-facts.ts'
import type { Block, ReportSection } from '../report-model.ts'
import { communityBlocks } from './community.ts'
import { correlationBlocks } from './correlations.ts'
import { factorTables } from './factor-tables.ts'

/** Sized so that the small letters of a picture are 8 points on an A4 page. */
const PICTURE_WIDTH_PX = 720
const SMALLER: Readonly<Partial<Record<PictureName, number>>> = { ordination: 560 }

const CAPTIONS: readonly (readonly [PictureName, string])[] = [
  ['transect-profile', 'Profile along the transect: factors above, species below'],
  ['completeness', 'What was measured where'],
  ['box-plots', 'Factors by zone'],
  ['scatter-matrix', 'Every factor beside every species'],
  ['ordination', 'All factors together (principal components)'],
  ['accumulation', 'Have enough quadrats been measured? Running means'],
]

/** What was found, in tables and pictures, before anything is concluded. */
export function resultsSection(facts: ReportFacts): ReportSection {
  const number = pictureNumbers()
  const pictures = new Map(
    CAPTIONS.filter(([name]) => canBeDrawn(name, facts.material)).map(
      ([name, caption]): [PictureName, Block] => [
        name,
        {
          kind: 'picture',
          svg: drawPicture(
            name,
            facts.material,
            { widthPx: SMALLER[name] ?? PICTURE_WIDTH_PX },
            `report-${name}`,
          ),
          caption: `Figure ${number()}: ${caption}.`,
        },
      ],
    ),
  )
  const picture = (...names: PictureName[]) => names.flatMap((name) => pictures.get(name) ?? [])
  const blocks: Block[] = [
    ...picture('transect-profile', 'completeness'),
    { kind: 'heading', text: 'Factors' },
    ...factorTables(facts),
    ...picture('box-plots'),
    ...communityBlocks(facts),
    ...picture('scatter-matrix'),
    ...correlationBlocks(facts),
    ...picture('ordination', 'accumulation'),
  ]
  if (facts.material.factors.length === 0)
    blocks.unshift({
      kind: 'note',
      text: 'There are no clean values yet, so there are no results of factors.',
    })
  return { title: 'Results', blocks, beginsPage: false }
}

function pictureNumbers(): () => number {
  let last = 0
  return () => ++last
}
