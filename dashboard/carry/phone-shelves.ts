import type { SurveyFile } from '../../hub/contract/survey.ts'
import type { Capture, Draft } from './capture.ts'
import type { Shelf } from './outbox.ts'

/** What this phone keeps of a field day: captures to send, captures in the making, and the surveys last seen. */
export interface PhoneShelves {
  captures: Shelf<Capture>
  drafts: Shelf<Draft>
  surveys: Shelf<SurveyFile>
  /** false: the browser keeps nothing beyond this page (private mode, or storage is full) */
  isLasting: boolean
}

const DATABASE = 'tussock carry'
const KEYS = { captures: 'id', drafts: 'key', surveys: 'id' } as const
type ShelfName = keyof typeof KEYS

/** A browser that never answers keeps nothing either. */
const PATIENCE_MS = 4_000

/** Opens the phone’s own database, or shelves in memory where there is none. */
export async function openPhoneShelves(): Promise<PhoneShelves> {
  const database = await openDatabase().catch(() => null)
  const shelf = <T extends object>(name: ShelfName): Shelf<T> =>
    database ? databaseShelf<T>(database, name) : memoryShelf<T>(KEYS[name])
  return {
    captures: shelf('captures'),
    drafts: shelf('drafts'),
    surveys: shelf('surveys'),
    isLasting: database !== null,
  }
}

/** Keeps things as long as the page is open. */
export function memoryShelf<T extends object>(keyName: string): Shelf<T> {
  const items = new Map<unknown, T>()
  return {
    all: async () => [...items.values()],
    put: async (item) => {
      items.set((item as Record<string, unknown>)[keyName], item)
    },
    remove: async (key) => {
      items.delete(key)
    },
  }
}

function openDatabase(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error('no answer')), PATIENCE_MS)
    const request = indexedDB.open(DATABASE, 1)
    request.onupgradeneeded = () => {
      for (const [name, keyPath] of Object.entries(KEYS)) request.result.createObjectStore(name, { keyPath })
    }
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
}

function databaseShelf<T extends object>(database: IDBDatabase, name: ShelfName): Shelf<T> {
  // a promise that settles when the transaction is complete: before that nothing is kept
  const within = <R>(mode: IDBTransactionMode, ask: (store: IDBObjectStore) => IDBRequest<R>): Promise<R> =>
    new Promise((resolve, reject) => {
      const options: IDBTransactionOptions = mode === 'readwrite' ? { durability: 'strict' } : {}
      const transaction = database.transaction(name, mode, options)
      const request = ask(transaction.objectStore(name))
      transaction.oncomplete = () => resolve(request.result)
      transaction.onabort = () => reject(transaction.error)
      transaction.onerror = () => reject(transaction.error)
    })
  return {
    all: () => within('readonly', (store) => store.getAll() as IDBRequest<T[]>),
    put: async (item) => {
      await within('readwrite', (store) => store.put(item))
    },
    remove: async (key) => {
      await within('readwrite', (store) => store.delete(key))
    },
  }
}
