import type { RuleName } from './plan-form.ts'

/** How each rule is called on the page, and what it is for. */
export const ruleWords: Record<RuleName, { label: string; ground: 'tape' | 'plot'; about: string }> = {
  along: {
    label: 'one every few metres of the tape',
    ground: 'tape',
    about: 'For a gradient: from shade to light, from path to meadow.',
  },
  belt: {
    label: 'several side by side at each station (belt)',
    ground: 'tape',
    about: 'For a gradient, with replicates: every as wide as the frame is edge to edge, more leaves gaps.',
  },
  random: {
    label: 'random places in the plot',
    ground: 'plot',
    about: 'To compare areas: every place is equally likely, none is chosen by eye.',
  },
  stratified: {
    label: 'the plot in equal parts, random in each',
    ground: 'plot',
    about: 'Random, but spread: no part of the plot is missed by bad luck.',
  },
  grid: {
    label: 'rows and columns at equal distances',
    ground: 'plot',
    about: 'For a map. Beware of ditches or furrows at the same distance.',
  },
}
