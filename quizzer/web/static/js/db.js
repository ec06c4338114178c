/** What stays on the phone: answers that wait, packs, and who this browser is. */

/** @returns {Promise<IDBDatabase>} */
function opened() {
  const asked = indexedDB.open("quizzer", 1);
  asked.onupgradeneeded = () => {
    for (const store of ["outbox", "packs", "own"]) asked.result.createObjectStore(store, { keyPath: "id" });
  };
  return result(asked);
}

/**
 * Run `act` in one transaction over these stores. What it returns comes back once all of it is on the disk: either
 * everything happened or nothing. Each has a connection of its own, so that none is lost while the page sleeps, and
 * none stands in the way of a newer page that changes the layout.
 * @template T
 * @param {string[]} stores @param {IDBTransactionMode} mode
 * @param {(get: (name: string) => IDBObjectStore) => Promise<T> | T} act @returns {Promise<T>}
 */
export async function run(stores, mode, act) {
  const db = await opened();
  try {
    const transaction = db.transaction(stores, mode, { durability: "strict" });
    const ended = new Promise((resolve, reject) => {
      transaction.oncomplete = resolve;
      transaction.onabort = () => reject(transaction.error ?? new DOMException("aborted", "AbortError"));
    });
    const acted = (async () => act((name) => transaction.objectStore(name)))();
    acted.catch(() => { try { transaction.abort(); } catch { /* it has ended by itself */ } });
    return (await Promise.all([acted, ended]))[0];
  } finally {
    db.close();
  }
}

/** The result of one request. @template T @param {IDBRequest<T>} request @returns {Promise<T>} */
export function result(request) {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}
