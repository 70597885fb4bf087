import { createRoute, z } from '@hono/zod-openapi'
import { body, done, json, refusals } from './route-parts.ts'

/** As what a page is let in. */
export const You = z.object({
  role: z.enum(['teacher', 'class', 'stranger']),
  /** the hub is open to a network, so that the teacher enters with a passphrase */
  isOnNetwork: z.boolean(),
  needsClassCode: z.boolean(),
})
export type You = z.infer<typeof You>

export const getYou = createRoute({
  method: 'get',
  path: '/api/you',
  summary: 'As what this page is let in: teacher, class or stranger',
  responses: { 200: json(You, 'The role.'), ...refusals },
})

export const postEnter = createRoute({
  method: 'post',
  path: '/api/enter',
  summary: 'Enter with the teacher’s passphrase, or the class code; answered with a cookie',
  request: body(z.strictObject({ as: z.enum(['teacher', 'class']), secret: z.string().min(1).max(200) })),
  responses: { 200: done, ...refusals },
})

export const postLeave = createRoute({
  method: 'post',
  path: '/api/leave',
  summary: 'Leave: the cookie opens nothing any more',
  responses: { 200: done, ...refusals },
})
