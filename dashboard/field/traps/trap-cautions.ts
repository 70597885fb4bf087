/** Common cautions, not a rule book: local rules and qualified people go before every line. */
const EVERYWHERE = [
  'The landowner’s permission, local rules and a qualified person come before anything written here.',
  'Set no more traps than you can look at in time. Close or take up every one you cannot come back to.',
] as const

const MAMMALS = [
  'Dry bedding and insulation (hay), so that it neither gets wet nor cold.',
  'Food that has water in it, and food for insect-eaters: a shrew starves within hours.',
  'Ask which licence is needed where you are: for shrews and protected species often one is.',
  'Not in frost, heavy rain or heat. Set it level, in cover, shaded from the sun.',
  'Let each animal go near where it was caught. Whoever handles it has been taught how, with gloves.',
] as const

const PITFALLS = [
  'A raised cover keeps rain out; small holes in the bottom let water drain.',
  'No killing fluid unless the teacher has decided so: without it animals can be let go.',
  'Put in a few leaves or a twig, so that what falls in can hide or climb out.',
  'Shrews and amphibians fall in too: look early, and let them go at once.',
  'Take it up and fill the hole when you have done: an empty pitfall goes on catching.',
] as const

const FUNNELS = [
  'The lamp is hot: keep it clear of litter and paper, and never leave it on unattended overnight unless your school allows it.',
  'Alcohol burns and its fumes are harmful: small amounts, lid ready, room aired, no flame.',
  'A low lamp and slow drying drive animals down; too hot kills them in the litter.',
] as const

const LIGHTS = [
  'Shade it before the sun comes up: what is in it cooks or is eaten by birds.',
  'Mains outdoors is for qualified people; do not look into an ultraviolet lamp.',
] as const

const REFUGES = ['Lift it gently and put it back as it was. Look for snakes and nests first.'] as const

const OF: Readonly<Record<string, readonly string[]>> = {
  'live mammal trap': MAMMALS,
  'pitfall trap': PITFALLS,
  'extraction funnel': FUNNELS,
  'light trap': LIGHTS,
  'refuge trap': REFUGES,
}

/** What is said where a trap of this kind is set; one in other words is told everything about animals. */
export function cautionsFor(method: string): readonly string[] {
  return [...EVERYWHERE, ...(OF[method.trim().toLowerCase()] ?? [...MAMMALS, ...PITFALLS])]
}
