// The document kept in this browser: after each change, whole or not at all, by one tab at a time.

import { type Doc, kept, opened } from "./document";

const STORE = "sheets";
const KEY = "now";

interface Kept {
  /** Counts up with each change that is kept; of a draft, the one that it lies on. */
  revision: number;
  /** The tab that put it down, and how many it had put down until then, drafts among them. */
  tab: string;
  turn: number;
  text: string;
}

const tab = crypto.randomUUID?.() ?? String(Math.random());
/** The revision that this tab knows. */
let known = 0;
let turn = 0;
let database: Promise<IDBDatabase> | null = null;

function opening(): Promise<IDBDatabase> {
  // What failed or was closed is opened anew the next time.
  const again = () => {
    database = null;
  };
  database ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open("quiltpath", 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onsuccess = () => {
      request.result.onclose = again;
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("another tab holds an older store"));
  }).catch((error: unknown) => {
    again();
    throw error;
  });
  return database;
}

function wait<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

/** Where a draft lies: the store answers too late for a page that goes, this doesn't. */
const DRAFT = "quiltpath";

/** Puts a document down at once, on top of what the store has. */
export function draft(doc: Doc) {
  try {
    const late: Kept = { revision: known, tab, turn: ++turn, text: kept(doc) };
    localStorage.setItem(DRAFT, JSON.stringify(late));
  } catch {
    // No room, or refused: the store still has what it kept last.
  }
}

/** The draft that is newer than what the store has; one that the store has gone past is dropped. */
function drafted(found: Kept | undefined): Doc | null {
  try {
    const late = JSON.parse(localStorage.getItem(DRAFT) ?? "null") as Kept | null;
    if (!late) return null;
    // The same tab may still have kept an older change after it put the draft down.
    const later = late.tab === found?.tab && late.turn > found.turn;
    if (later || late.revision === (found?.revision ?? 0)) return opened(late.text);
    localStorage.removeItem(DRAFT);
  } catch {
    // What can't be read is no draft.
  }
  return null;
}

/** A document that was here before, and whether the store has it as it is. */
export interface Restored {
  doc: Doc;
  whole: boolean;
}

async function stored(store: IDBObjectStore): Promise<Kept | undefined> {
  return (await wait(store.get(KEY))) as Kept | undefined;
}

const ofOther = (found: Kept | undefined) => found !== undefined && found.tab !== tab && found.revision > known;

/** What is kept; null where nothing is. Throws where the browser keeps nothing. */
export async function restore(): Promise<Restored | null> {
  const found = await stored((await opening()).transaction(STORE).objectStore(STORE));
  known = found?.revision ?? 0;
  const late = drafted(found);
  if (late) return { doc: late, whole: false };
  return found ? { doc: opened(found.text), whole: true } : null;
}

/** Whether another tab has kept something since. */
export async function isNewer(): Promise<boolean> {
  return ofOther(await stored((await opening()).transaction(STORE).objectStore(STORE)));
}

export type Outcome = "kept" | "elsewhere";

/** Keeps the document, unless another tab has kept a newer one. Throws where it can't be kept. */
export async function keep(doc: Doc, force = false): Promise<Outcome> {
  const own = ++turn;
  const text = kept(doc);
  const transaction = (await opening()).transaction(STORE, "readwrite");
  const store = transaction.objectStore(STORE);
  const found = await stored(store);
  if (!force && ofOther(found)) {
    transaction.abort();
    return "elsewhere";
  }
  const revision = Math.max(known, found?.revision ?? 0) + 1;
  store.put({ revision, tab, turn: own, text } satisfies Kept, KEY);
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => {
      known = revision;
      resolve("kept");
    };
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}
