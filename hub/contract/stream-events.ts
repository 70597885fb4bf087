// Names alone, without a library: the page reads them too.

/**
 * `event:` names of `/api/stream`. All but `readings` mean: fetch that part anew. They carry a count of changes, which
 * goes up by one with each of {@link changeEvents}: a page that finds a gap has missed one, and fetches everything
 * anew. The first event on a new line is a `pulse`, so that it is found at once.
 */
export const streamEvents = [
  'readings',
  'directory',
  'surveys',
  'spots',
  'recomputed',
  'resync',
  'pulse',
] as const
export type StreamEvent = (typeof streamEvents)[number]

export const changeEvents: readonly StreamEvent[] = ['surveys', 'spots', 'recomputed']
