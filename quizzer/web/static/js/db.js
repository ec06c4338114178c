/** What stays on the phone: answers that wait, packs, and who this browser is. One transaction at a time. */

const NAME = "quizzer", VERSION = 1;
/** @type {Promise<IDBDatabase> | null} */
let opened = null;

/** @returns {Promise<IDBDatabase>} */
function database() {
  opened ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open(NAME, VERSION);
    asked.onupgradeneeded = () => {
      for (const store of ["outbox", "packs", "own"]) asked.result.createObjectStore(store, { keyPath: "id" });
    };
    asked.onblocked = () => reject(asked.error);
    asked.onerror = () => reject(asked.error);
    asked.onsuccess = () => {
      const db = asked.result;
      // A newer page wants to change the layout, or the system took the connection away: the next call opens it anew.
      db.onversionchange = () => { db.close(); opened = null; };
      db.onclose = () => { opened = null; };
      resolve(db);
    };
  });
  opened.catch(() => { opened = null; });
  return opened;
}

/**
 * Run `act` in one transaction over these stores. What it returns comes back once all of it is on the disk: either
 * everything happened or nothing. A connection that was lost is opened once more.
 * @template T
 * @param {string[]} stores @param {IDBTransactionMode} mode
 * @param {(get: (name: string) => IDBObjectStore) => Promise<T> | T} act @returns {Promise<T>}
 */
export async function run(stores, mode, act) {
  try {
    return await once(stores, mode, act);
  } catch (error) {
    const lost = error instanceof DOMException && ["InvalidStateError", "UnknownError"].includes(error.name);
    if (!lost) throw error;
    opened = null;
    return once(stores, mode, act);
  }
}

/**
 * @template T
 * @param {string[]} stores @param {IDBTransactionMode} mode
 * @param {(get: (name: string) => IDBObjectStore) => Promise<T> | T} act @returns {Promise<T>}
 */
async function once(stores, mode, act) {
  const db = await database();
  const transaction = db.transaction(stores, mode, { durability: "strict" });
  const ended = new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error ?? new DOMException("aborted", "AbortError"));
  });
  ended.catch(() => {}); // told below
  try {
    const found = await act((name) => transaction.objectStore(name));
    await ended;
    return found;
  } catch (error) {
    try { transaction.abort(); } catch { /* it has ended by itself */ }
    throw transaction.error ?? error;
  }
}

/** The result of one request. @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
export function result(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
