/**
 * SenML JSON (RFC 8428): bytes to records. Pure; time is left as the pack gives it, and resolved by
 * {@link resolvePack} or by intake, which knows more about clocks.
 */

/** RFC 8428 §4.5.3: a time below 2^28 is relative to now, from 2^28 on it is Unix time, both in seconds. */
export const FIRST_ABSOLUTE_SECOND = 2 ** 28
/** RFC 8428 §4.4: the version this decoder understands. */
export const SENML_VERSION = 10
export const MAX_RECORDS = 1000

export interface SenmlRecord {
  name: string
  unit: string
  /** base time + time, seconds, as sent */
  seconds: number
  /** the number, where it has one */
  value: number | undefined
  /** what most records do not say; null when this one says nothing of it */
  more: SenmlMore | null
}

/** A value of another kind than a number, of which a record has one at most, and what goes with any. */
export interface SenmlMore {
  text: string | undefined
  truth: boolean | undefined
  octets: string | undefined
  sum: number | undefined
  updateSeconds: number | undefined
  /** undefined: {@link SENML_VERSION} */
  version: number | undefined
}

export interface SenmlRefusal {
  refused: true
  message: string
  /** the pack was understood, but is larger than allowed */
  tooMany?: true
}

const NAME = /^[A-Za-z0-9][A-Za-z0-9:./_-]*$/
const NAMES_AT_MOST = 4096
const NO_NAMES: ReadonlyMap<string, string> = new Map()
/**
 * By base name and own name, the names that were checked before (§4.5.1). A class uses the same ones over and over:
 * joining and checking them anew was a third of the work on a pack.
 */
const fullNames = new Map<string, Map<string, string>>()
let fullNamesKnown = 0

/** Joins and checks a name that is not among those known. @returns undefined where it is none */
function newName(base: string, own: string): string | undefined {
  const name = base + own
  if (!NAME.test(name)) return undefined
  if (fullNamesKnown >= NAMES_AT_MOST) {
    fullNames.clear()
    fullNamesKnown = 0
  }
  const ofBase = fullNames.get(base) ?? new Map<string, string>()
  fullNames.set(base, ofBase.set(own, name))
  fullNamesKnown++
  return name
}

const BASE64URL = /^[A-Za-z0-9_-]*$/

/**
 * Reads a pack that JSON.parse gave. Unknown fields are ignored, but a label ending in `_` is an error (§4.4).
 * @returns records in the order sent, base fields applied (§4.6 but for time); or what is wrong and in which record
 */
export function readPack(pack: unknown): SenmlRecord[] | SenmlRefusal {
  if (!Array.isArray(pack)) return no('a SenML pack is a JSON array of records')
  if (pack.length === 0) return no('the pack has no record')
  if (pack.length > MAX_RECORDS)
    return { refused: true, message: `${pack.length} records in one pack`, tooMany: true }
  const records: SenmlRecord[] = []
  let baseName = ''
  let baseSeconds = 0
  let baseUnit = ''
  let baseValue = 0
  let baseSum: number | undefined
  let version: number | undefined
  let namesOfBase: ReadonlyMap<string, string> | undefined
  for (let index = 0; index < pack.length; index++) {
    const record: unknown = pack[index]
    if (typeof record !== 'object' || record === null || Array.isArray(record))
      return no(`record ${index} is not an object`)
    const fields = record as Record<string, unknown>
    let values = 0
    let hasOwnField = false
    let ownName = ''
    let ownSeconds = 0
    let unit: string | undefined
    let value: number | undefined
    let text: string | undefined
    let truth: boolean | undefined
    let octets: string | undefined
    let sum: number | undefined
    let updateSeconds: number | undefined
    for (const label in fields) {
      const field = fields[label]
      switch (label) {
        case 'n':
        case 'u':
          if (typeof field !== 'string') return wrong(index, label, 'text', field)
          hasOwnField = true
          if (label === 'n') ownName = field
          else unit = field
          break
        case 'v':
        case 't':
        case 's':
        case 'ut':
          if (typeof field !== 'number' || !Number.isFinite(field))
            return wrong(index, label, 'a finite number', field)
          hasOwnField = true
          if (label === 'v') {
            value = field
            values++
          } else if (label === 't') ownSeconds = field
          else if (label === 's') sum = field
          else updateSeconds = field
          break
        case 'bn':
          if (typeof field !== 'string') return wrong(index, label, 'text', field)
          baseName = field
          namesOfBase = undefined
          break
        case 'bu':
          if (typeof field !== 'string') return wrong(index, label, 'text', field)
          baseUnit = field
          break
        case 'bt':
        case 'bv':
        case 'bs':
        case 'bver':
          if (typeof field !== 'number' || !Number.isFinite(field))
            return wrong(index, label, 'a finite number', field)
          if (label === 'bt') baseSeconds = field
          else if (label === 'bv') baseValue = field
          else if (label === 'bs') baseSum = field
          else {
            if (!Number.isInteger(field) || field < 1) return wrong(index, label, 'a whole number', field)
            if (field > SENML_VERSION)
              return no(`record ${index} has version ${field}; this hub understands up to ${SENML_VERSION}`)
            if (version !== undefined ? field !== version : index > 0 && field !== SENML_VERSION)
              return no(`record ${index} has version ${field}; all records of a pack must have the same`)
            version = field
          }
          break
        case 'vs':
          if (typeof field !== 'string') return wrong(index, label, 'text', field)
          text = field
          values++
          break
        case 'vb':
          if (typeof field !== 'boolean') return wrong(index, label, 'true or false', field)
          truth = field
          values++
          break
        case 'vd':
          if (typeof field !== 'string' || !BASE64URL.test(field))
            return wrong(index, label, 'base64url without padding', field)
          octets = field
          values++
          break
        default:
          if (label.endsWith('_'))
            return no(`record ${index} has the field "${label}", which must be understood and is not`)
      }
    }
    if (values > 1) return no(`record ${index} has more than one value field`)
    if (values === 0 && sum === undefined) {
      if (!hasOwnField) continue // only base fields: they stand for the records that follow
      return no(`record ${index} has no value`)
    }
    namesOfBase ??= fullNames.get(baseName) ?? NO_NAMES
    let name = namesOfBase.get(ownName)
    if (name === undefined) {
      name = newName(baseName, ownName)
      namesOfBase = fullNames.get(baseName) ?? NO_NAMES
    }
    if (name === undefined) {
      const wrongName = baseName + ownName
      if (wrongName === '') return no(`record ${index} has no name`)
      return no(`record ${index} has the name "${wrongName}", which RFC 8428 does not allow`)
    }
    if (value !== undefined) value += baseValue
    if (sum === undefined) sum = baseSum
    else if (baseSum !== undefined) sum += baseSum
    const seconds = baseSeconds + ownSeconds
    if (
      (value !== undefined && !Number.isFinite(value)) ||
      (sum !== undefined && !Number.isFinite(sum)) ||
      !Number.isFinite(seconds)
    )
      return no(`record ${index} is not finite once its base is added`)
    records.push({
      name,
      unit: unit ?? baseUnit,
      seconds,
      value,
      more:
        value !== undefined && sum === undefined && updateSeconds === undefined && version === undefined
          ? null
          : { text, truth, octets, sum, updateSeconds, version },
    })
  }
  if (records.length === 0) return no('the pack has base fields only')
  return records
}

/** A record in RFC 8428's resolved form (§4.6): no base fields, absolute time. */
export interface ResolvedRecord {
  n: string
  u?: string
  t: number
  v?: number
  vs?: string
  vb?: boolean
  vd?: string
  s?: number
  ut?: number
  bver?: number
}

/**
 * RFC 8428 §4.6: absolute times, chronological order, version only where it is not the default.
 * @param receivedSeconds Unix time of arrival, s: what "now" means for relative times
 */
export function resolvePack(pack: unknown, receivedSeconds: number): ResolvedRecord[] | SenmlRefusal {
  const records = readPack(pack)
  if (!Array.isArray(records)) return records
  return records
    .map((record) => {
      const isRelative = record.seconds < FIRST_ABSOLUTE_SECOND
      const { more } = record
      return {
        n: record.name,
        ...(record.unit === '' ? {} : { u: record.unit }),
        t: isRelative ? receivedSeconds + record.seconds : record.seconds,
        ...(record.value === undefined ? {} : { v: record.value }),
        ...(more?.text === undefined ? {} : { vs: more.text }),
        ...(more?.truth === undefined ? {} : { vb: more.truth }),
        ...(more?.octets === undefined ? {} : { vd: more.octets }),
        ...(more?.sum === undefined ? {} : { s: more.sum }),
        ...(more?.updateSeconds === undefined ? {} : { ut: more.updateSeconds }),
        ...(more?.version === undefined || more.version === SENML_VERSION ? {} : { bver: more.version }),
      }
    })
    .sort((a, b) => a.t - b.t)
}

export function isSenmlRefusal(answer: unknown): answer is SenmlRefusal {
  return typeof answer === 'object' && answer !== null && 'refused' in answer
}

function no(message: string): SenmlRefusal {
  return { refused: true, message }
}

function wrong(index: number, label: string, wanted: string, got: unknown): SenmlRefusal {
  const shown = typeof got === 'number' ? String(got) : (JSON.stringify(got) ?? String(got))
  return no(`record ${index}: "${label}" should be ${wanted}, it is ${shown.slice(0, 60)}`)
}
