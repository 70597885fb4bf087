export { readNumber } from './read-number.ts'
