import { useState } from 'preact/hooks'
import type { SpeciesMeasure } from '../../../hub/contract/species.ts'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { messageOf } from '../../client.ts'
import { Choice } from '../../parts/field.tsx'
import { useWidth } from '../../parts/use-width.ts'
import { goTo, pathTo } from '../../router.ts'
import { measureNames, measureWords } from '../species/measure-words.ts'
import { studyClient } from '../study-client.ts'
import { StudyHead } from '../study-head.tsx'
import { keepTyping, typingKept } from './kept-typing.ts'
import { OneQuadrat } from './one-quadrat.tsx'
import { typedAsCsv } from './typing-csv.ts'
import {
  blankGrid,
  columnsOf,
  isBlankGrid,
  namelessRows,
  type TypingGrid,
  withCell,
  withName,
  withOneMore,
} from './typing-grid.ts'
import { WideGrid } from './wide-grid.tsx'

/** Narrower than this the sheet is typed one quadrat at a time, px. */
const WIDE_FROM = 640

/** For a class that has only paper: the printed sheet, to be typed into. Kept on this device until it is sent. */
export function TypingPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const [grid, setGrid] = useState(() => typingKept(id))
  const [trouble, setTrouble] = useState('')
  const [isSure, setSure] = useState(false)
  const [box, width] = useWidth<HTMLDivElement>()
  const quadrats = columnsOf(
    grid,
    survey.quadrats.map(({ label }) => label),
  )
  const change = (next: TypingGrid) => {
    setGrid(next)
    keepTyping(id, next)
  }
  const send = async () => {
    const nameless = namelessRows(grid)
    if (nameless.length > 0) {
      setTrouble(`Row ${nameless.join(', ')} has values but no species. Write its name first.`)
      return
    }
    try {
      const bytes = new Blob([typedAsCsv(grid, quadrats)], { type: 'text/csv;charset=utf-8' })
      await studyClient.addSheet(id, { kind: 'species', name: 'typed from paper.csv', bytes })
      keepTyping(id, blankGrid(grid.measure))
      goTo(pathTo.chapter(id, 'study', 'species'))
    } catch (error) {
      setTrouble(`${messageOf(error)} What you typed is still here.`)
    }
  }
  const props = {
    grid,
    quadrats,
    onName: (row: number, name: string) => change(withName(grid, row, name)),
    onCell: (row: number, quadrat: string, text: string) => change(withCell(grid, row, quadrat, text)),
    onOneMore: () => change(withOneMore(grid)),
  }
  return (
    <article class="study-page is-wide">
      <StudyHead survey={id} title="Type in from paper">
        <p>
          As on the printed sheet. 0 is looked for and not there; a blank is not recorded, and you are asked
          once what your blanks mean. <b>12,5</b> and <b>12.5</b> are the same; <b>+</b> is a trace.
        </p>
      </StudyHead>
      {quadrats.length === 0 ? (
        <p>
          This survey has no quadrats yet. <a href={pathTo.chapter(id, 'plan')}>Plan them first</a>.
        </p>
      ) : (
        <>
          <div class="fields">
            <Choice
              label="What was measured"
              value={grid.measure}
              onValue={(measure) => change({ ...grid, measure: measure as SpeciesMeasure })}
              choices={measureNames.map((value) => ({ value, label: measureWords[value].label }))}
              hint={`typed like ${measureWords[grid.measure].typed}`}
            />
          </div>
          <div ref={box}>
            {width > 0 && (width < WIDE_FROM ? <OneQuadrat {...props} /> : <WideGrid {...props} />)}
          </div>
          {trouble && (
            <p class="study-trouble" role="alert">
              {trouble}
            </p>
          )}
          <p class="form-ways">
            <button type="button" id="send-typed" disabled={isBlankGrid(grid)} onClick={() => void send()}>
              Give it to the hub
            </button>
            <button
              type="button"
              class="plain"
              disabled={isBlankGrid(grid)}
              onClick={() => {
                if (isSure) change(blankGrid(grid.measure))
                setSure(!isSure)
              }}
            >
              {isSure ? 'Yes, empty the sheet' : 'Begin anew'}
            </button>
          </p>
          <p class="field-hint typing-kept">
            Kept on this device while you type, until it is given to the hub.
          </p>
        </>
      )}
    </article>
  )
}
