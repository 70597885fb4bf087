import type { HubState } from '../../hub/http/desk.ts'

/** A hub with nothing connected and nothing wrong. */
export const quietState: HubState = {
  boards: [],
  ports: [],
  broker: { description: 'none', state: 'open', trouble: null },
  trouble: null,
  isRecomputing: false,
  recomputing: { left: 0, total: 0 },
  clockJumps: [],
  backup: null,
  boardsWithKey: [],
}
