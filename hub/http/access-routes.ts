import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { SESSION_COOKIE, SESSION_SECONDS } from '../access/door.ts'
import * as api from '../contract/access-api.ts'
import type { HubApp, PageSide } from './page-side.ts'
import { addressOf, roleOf } from './who-asks.ts'

/** Entering and leaving. */
export function routeAccess(app: HubApp, side: PageSide): void {
  const { door } = side
  app.openapi(api.getYou, (c) => {
    const { isOnNetwork } = side.access
    return c.json({ role: roleOf(c, door), isOnNetwork, needsClassCode: door.needsClassCode }, 200)
  })

  app.openapi(api.postEnter, async (c) => {
    const { as, secret } = c.req.valid('json')
    const cookie = await door.enter(addressOf(c), as, secret)
    setCookie(c, SESSION_COOKIE, cookie, {
      httpOnly: true,
      sameSite: 'Strict',
      secure: side.access.isSecure,
      path: '/',
      maxAge: SESSION_SECONDS,
    })
    return c.json({ done: true } as const, 200)
  })

  app.openapi(api.postLeave, (c) => {
    door.leave(getCookie(c, SESSION_COOKIE))
    deleteCookie(c, SESSION_COOKIE, { path: '/' })
    return c.json({ done: true } as const, 200)
  })
}
