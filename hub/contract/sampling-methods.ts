/**
 * Ways to catch or gather animals, in the trade’s words. The list is open: any other words may be used. Those that catch
 * animals alive and hold them are marked, because they must be looked at in time.
 */
export const knownSamplingMethods = [
  { name: 'live mammal trap', holdsAnimals: true, isLeftStanding: true, checkWithinHours: 12 },
  { name: 'pitfall trap', holdsAnimals: true, isLeftStanding: true, checkWithinHours: 24 },
  { name: 'refuge trap', holdsAnimals: false, isLeftStanding: true, checkWithinHours: 48 },
  { name: 'extraction funnel', holdsAnimals: false, isLeftStanding: true, checkWithinHours: 72 },
  { name: 'light trap', holdsAnimals: true, isLeftStanding: true, checkWithinHours: 12 },
  { name: 'sweep net', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'beating tray', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'pooter', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'plankton net', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'grapnel', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
  { name: 'hand search', holdsAnimals: false, isLeftStanding: false, checkWithinHours: null },
] as const
