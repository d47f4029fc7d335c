// The document kept in this browser: after each change, whole or not at all, by one tab at a time.

import { type Doc, kept, opened } from "./document";

const STORE = "sheets";
const KEY = "now";

interface Kept {
  /** Counts up with each change that is kept. */
  revision: number;
  /** The tab that kept it. */
  tab: string;
  text: string;
}

const tab = crypto.randomUUID?.() ?? String(Math.random());
/** The revision that this tab knows. */
let known = 0;
let database: Promise<IDBDatabase> | null = null;

function opening(): Promise<IDBDatabase> {
  database ??= new Promise((resolve, reject) => {
    const request = indexedDB.open("quiltpath", 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
    request.onblocked = () => reject(new Error("another tab holds an older store"));
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
    localStorage.setItem(DRAFT, JSON.stringify({ revision: known, text: kept(doc) }));
  } catch {
    // No room, or refused: the store still has what it kept last.
  }
}

/** The draft on top of this revision; one that the store has gone past is dropped. */
function drafted(revision: number): Doc | null {
  try {
    const found = JSON.parse(localStorage.getItem(DRAFT) ?? "null") as { revision: number; text: string } | null;
    if (found?.revision === revision) return opened(found.text);
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

/** What is kept; null where nothing is. Throws where the browser keeps nothing. */
export async function restore(): Promise<Restored | null> {
  const store = (await opening()).transaction(STORE).objectStore(STORE);
  const found = (await wait(store.get(KEY))) as Kept | undefined;
  known = found?.revision ?? 0;
  const late = drafted(known);
  if (late) return { doc: late, whole: false };
  return found ? { doc: opened(found.text), whole: true } : null;
}

export type Outcome = "kept" | "elsewhere";

/** Keeps the document, unless another tab has kept a newer one. Throws where it can't be kept. */
export async function keep(doc: Doc, force = false): Promise<Outcome> {
  const text = kept(doc);
  const transaction = (await opening()).transaction(STORE, "readwrite");
  const store = transaction.objectStore(STORE);
  const found = (await wait(store.get(KEY))) as Kept | undefined;
  if (!force && found && found.tab !== tab && found.revision > known) {
    transaction.abort();
    return "elsewhere";
  }
  known = Math.max(known, found?.revision ?? 0) + 1;
  store.put({ revision: known, tab, text } satisfies Kept, KEY);
  return new Promise((resolve, reject) => {
    transaction.oncomplete = () => resolve("kept");
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error);
  });
}
