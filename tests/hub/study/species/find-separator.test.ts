import { expect, test } from 'vitest'
import { findSeparator } from '../../../../hub/study/species/separated-text.ts'

// how classes save and type tables: common practice, no source
test.each([
  ['commas', 'quadrat,grass\nQ1,5\nQ2,7', 'comma'],
  ['semicolons with decimal commas', 'quadrat;grass\nQ1;5,5\nQ2;7,5', 'semicolon'],
  [
    'a title with a comma over semicolons',
    'Wood to bank, typed by G1\nquadrat;grass\nQ1;5\nQ2;7',
    'semicolon',
  ],
  [
    'a title with a comma, and decimal commas',
    'Wood to bank, by G1\nquadrat;grass\nQ1;5,5\nQ2;7,5',
    'semicolon',
  ],
  ['lists of species within cells', 'mark,species\n0,bramble;ivy\n0.5,bramble;bare\n1,ivy;moss', 'comma'],
  ['a comma in a heading', 'quadrat;"grass";moss, wet\nQ1;5;1,5\nQ2;7;2,5', 'semicolon'],
  ['a row that is too short', 'quadrat;a;b\nQ1;5,5;1\nQ2;7,5;2\nQ3;1,5', 'semicolon'],
  ['tabs, as pasted from a spreadsheet', 'quadrat\tgrass, tall\nQ1\t5,5\nQ2\t7', 'tab'],
  ['one column', 'quadrat\nQ1\nQ2', 'comma'],
  ['a title without a sign', 'Our table\n\nquadrat,grass\nQ1,5', 'comma'],
])('%s', (_what, text, separator) => {
  expect(findSeparator(text)).toBe(separator)
})
