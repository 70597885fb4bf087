import './plain-words.ts'
import { z } from 'zod'
import { NAME_LENGTH, NAME_ON_THE_WIRE } from './wire-names.ts'

/** RFC 3339 with a time zone: a time without one is refused, never guessed. */
export const Instant = z.iso.datetime({
  offset: true,
  error: 'a time with its zone, such as 2026-06-12T09:30:00Z',
})

/** A board's own name on the wire: letters, digits, dot, dash and underscore (RFC 8428 names, without separators). */
export const BoardName = z
  .string()
  .max(NAME_LENGTH)
  .regex(NAME_ON_THE_WIRE, 'letters, digits, dot, dash and underscore only')

/** What a quadrat or group is called on the ground: `Q1`. */
export const Label = z
  .string()
  .min(1)
  .max(40)
  .refine((text) => text.trim() === text, 'no space before or after')

export const Identifier = z
  .string()
  .max(NAME_LENGTH)
  .regex(NAME_ON_THE_WIRE, 'letters, digits, dot, dash and underscore only')

/** Who answers for it: a group's label, or initials. Neither a first name nor a whole one passes. */
export const Who = z
  .string()
  .trim()
  .min(1)
  .max(40)
  .regex(
    /\d|^(\p{Lu}[. ]{0,2}){1,3}$/u,
    'a group label with a number in it, such as G3, or initials; no names',
  )

/** Who did it: a label such as `G3`. It has a number in it, so that a person's name does not pass. */
export const GroupLabel = z
  .string()
  .trim()
  .min(1)
  .max(20)
  .regex(/\d/, 'a group label with a number in it, such as G3; no names')
