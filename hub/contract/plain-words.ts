import { z } from 'zod'

/** What is wrong with a field, in words for the person who wrote it. Where a schema says its own words, those stand. */
function plainWords(issue: z.core.$ZodRawIssue): string | undefined {
  switch (issue.code) {
    case 'invalid_type':
      return `should be ${named(String(issue.expected))}${issue.input === undefined ? ', and is missing' : ''}`
    case 'too_small':
      return issue.origin === 'string'
        ? `should have at least ${issue.minimum} ${issue.minimum === 1 ? 'letter' : 'letters'}`
        : `should be ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}${countWord(issue.origin)}`
    case 'too_big':
      return `should be ${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}${issue.origin === 'string' ? ' letters' : countWord(issue.origin)}`
    case 'unrecognized_keys':
      return `there is no field ${issue.keys.map((key) => `"${key}"`).join(', ')} here`
    case 'invalid_value':
      return `should be ${issue.values.map((value) => `"${String(value)}"`).join(' or ')}`
    case 'invalid_union':
      return issue.discriminator === undefined
        ? 'is not in one of the forms it may have'
        : `"${issue.discriminator}" is not one of those known`
    case 'invalid_format':
      return issue.format === 'date' ? 'should be a date such as 2026-06-12' : undefined
    default:
      return undefined
  }
}

function named(type: string): string {
  const words: Record<string, string> = {
    string: 'text',
    number: 'a number',
    int: 'a whole number',
    boolean: 'true or false',
    array: 'a list',
    object: 'an object with fields',
  }
  return words[type] ?? type
}

function countWord(origin: string): string {
  return origin === 'array' ? ' entries' : ''
}

// in the page no code may be made from text: its security policy would complain of the attempt
z.config({ customError: plainWords, jitless: 'document' in globalThis })
