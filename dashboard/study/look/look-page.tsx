import { useState } from 'preact/hooks'
import type { SurveyFile } from '../../../hub/contract/survey.ts'
import { NextStep } from '../steps/next-step.tsx'
import { studyClient } from '../study-client.ts'
import { StudyHead } from '../study-head.tsx'
import { studyWish } from '../study-wish.ts'
import { useAsked } from '../use-asked.ts'
import { WishNote } from '../wish-note.tsx'
import { altText } from './alt-text.ts'
import { NameChoice } from './name-choice.tsx'
import { Picture } from './picture.tsx'
import { type PictureName, pictureKinds } from './picture-list.ts'

/** Look before you test: the pictures, with the factors and species that are chosen. */
export function LookPage({ survey }: { survey: SurveyFile }) {
  const { id } = survey
  const wish = studyWish(id).value
  const [name, setName] = useState<PictureName>('transect-profile')
  const [factors, setFactors] = useState<string[]>([])
  const [species, setSpecies] = useState<string[]>([])
  const { answer } = useAsked(id, () => studyClient.statistics(id, wish, { isHeldBack: true }), [wish])
  const allFactors = [...new Set(answer?.pairs.map(({ factor }) => factor))]
  const allSpecies = [...new Set(answer?.pairs.map((pair) => pair.species))]
  const kinds = pictureKinds.filter(({ needsSpecies }) => !needsSpecies || allSpecies.length > 0)
  const kind = kinds.find((each) => each.name === name) ?? kinds[0]!
  const isOne = kind.name === 'scatter'
  const of = (all: readonly string[], chosen: readonly string[]) => {
    const known = chosen.filter((each) => all.includes(each))
    return isOne ? [known[0] ?? all[0] ?? ''] : known
  }
  const chosenFactors = kind.takesFactors ? of(allFactors, factors) : []
  const chosenSpecies = kind.takesSpecies ? of(allSpecies, species) : []
  return (
    <article class="study-page is-wide">
      <StudyHead survey={id} title="Pictures">
        <p>Look before you test. Every picture can be read in black and white, and goes into the report.</p>
        <WishNote survey={id} />
      </StudyHead>
      <fieldset class="picture-kinds">
        <legend class="unseen">Kinds of pictures</legend>
        {kinds.map((each) => (
          <button
            key={each.name}
            type="button"
            class={each.name === kind.name ? 'take' : 'take plain'}
            aria-pressed={each.name === kind.name}
            onClick={() => setName(each.name)}
          >
            {each.title}
          </button>
        ))}
      </fieldset>
      <h2>{kind.title}</h2>
      <p>{kind.text}</p>
      <div class="picture-choices not-print">
        {kind.takesFactors && (
          <NameChoice
            legend="Factors"
            names={allFactors}
            chosen={factors}
            isOne={isOne}
            onChoose={setFactors}
          />
        )}
        {kind.takesSpecies && (
          <NameChoice
            legend="Species"
            names={allSpecies}
            chosen={species}
            isOne={isOne}
            onChoose={setSpecies}
          />
        )}
      </div>
      <Picture
        key={kind.name}
        survey={id}
        name={kind.name}
        alt={altText(kind, chosenFactors, chosenSpecies)}
        factors={chosenFactors}
        species={chosenSpecies}
        isHeldBack={wish.predictFirst}
        widestPx={1100}
      />
      <NextStep survey={id} after="look" />
    </article>
  )
}
