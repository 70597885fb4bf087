import { partsOfSentence, type Sentence, sentencesToParts } from '../links.ts'
import type { ReportFacts } from '../report-facts.ts'
import type { Block, ReportSection } from '../report-model.ts'
import { calibrationBlocks } from './calibrations.ts'
import { designSentences } from './design.ts'
import { driftSentences } from './drift.ts'
import { instrumentSentences } from './instruments.ts'
import { qualitySentences } from './quality.ts'
import { speciesSentences } from './species.ts'
import { statisticSentences } from './statistic.ts'
import { steadinessSentences } from './steadiness.ts'
import { timeSentences } from './times.ts'
import { uncertaintySentences } from './uncertainty.ts'
import { weatherSentences } from './weather.ts'

/** What was done, written from what is recorded: whoever reads it could do the survey again. */
export function methodsSection(facts: ReportFacts): ReportSection {
  const parts: [string, Block[]][] = [
    ['Design', said(designSentences(facts.survey))],
    ['Instruments', listedOrSaid(instrumentSentences(facts))],
    ['Calibration', calibrationBlocks(facts)],
    ['Steadiness', said(steadinessSentences(facts))],
    ['Checks and drift', listedOrSaid(driftSentences(facts))],
    ['Which readings count', said(qualitySentences(facts))],
    ['Plants and animals', said(speciesSentences(facts))],
    ['Statistics', said(statisticSentences(facts))],
    ['Uncertainty', listedOrSaid(uncertaintySentences(facts))],
    ['Times', said(timeSentences(facts))],
    ['Weather', said(weatherSentences(facts))],
  ]
  const blocks = parts
    .filter(([, each]) => each.length > 0)
    .flatMap(([text, each]): Block[] => [{ kind: 'heading', text }, ...each])
  return { title: 'Methods', blocks, beginsPage: false }
}

/** Many sentences of one form are easier to read as a list. */
const SENTENCES_AT_MOST = 3

function said(sentences: readonly Sentence[]): Block[] {
  return sentences.length === 0 ? [] : [{ kind: 'paragraph', parts: sentencesToParts(sentences) }]
}

function listedOrSaid(sentences: readonly Sentence[]): Block[] {
  return sentences.length <= SENTENCES_AT_MOST
    ? said(sentences)
    : [{ kind: 'list', items: sentences.map(partsOfSentence) }]
}
