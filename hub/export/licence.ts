import type { Licence } from '../contract/export-api.ts'

/** Name, full title and address of each licence. @see https://spdx.org/licenses/ and creativecommons.org */
export const licenceFacts: Readonly<Record<Licence, { title: string; url: string }>> = {
  'CC0-1.0': {
    title: 'Creative Commons Zero v1.0 Universal',
    url: 'https://creativecommons.org/publicdomain/zero/1.0/legalcode',
  },
  'CC-BY-4.0': {
    title: 'Creative Commons Attribution 4.0 International',
    url: 'https://creativecommons.org/licenses/by/4.0/legalcode',
  },
  'CC-BY-NC-4.0': {
    title: 'Creative Commons Attribution Non Commercial 4.0 International',
    url: 'https://creativecommons.org/licenses/by-nc/4.0/legalcode',
  },
}
