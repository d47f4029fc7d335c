// The state of the page: the document with its past and future, and what the core says of it.

import type { Seen } from "quiltpath";
import { useEffect, useRef, useState } from "preact/hooks";
import { Client } from "./client";
import { EMPTY, type Doc, sheet } from "./document";
import type { Said } from "./protocol";

/** A change that can be taken back, with its name. */
interface Step {
  doc: Doc;
  /** What was done next, such as "border, 5 3/4 to 6". */
  name: string;
}

export type Keeping = "kept" | "soon" | "not";

/** Something to press. */
export interface Way {
  says: string;
  go(): void;
}

export interface State {
  doc: Doc;
  past: Step[];
  future: Step[];
  /** What the core shows of the last plan that could be solved. */
  seen: Seen | null;
  /** The picture's parts by key. */
  parts: Map<string, string>;
  /** What the core knows with order, stitches and time; null while it works that out. */
  timed: Seen | null;
  notes: [string, string][];
  /** What is wrong with the document as it is. */
  said: Said | null;
  /** What the page has to say, such as that it could not be kept, and what she may do about it. */
  word: string | null;
  way: Way | null;
  busy: boolean;
  /** Whether the document is kept in this browser as it is, will be, or can't be. */
  kept: Keeping;
}

const MOST_STEPS = 500;

/** The longer side of the picture is so many letters high. */
let letters = 46;

let state: State = {
  doc: EMPTY,
  past: [],
  future: [],
  seen: null,
  parts: new Map(),
  timed: null,
  notes: [],
  said: null,
  word: null,
  way: null,
  // Until there is a document.
  busy: true,
  kept: "kept",
};
const listeners = new Set<() => void>();

function set(change: Partial<State>) {
  state = { ...state, ...change };
  for (const listener of listeners) listener();
}

/** What was there before, where the new is equal to it: it is drawn already. */
function same<T>(before: T, now: T): T {
  return JSON.stringify(before) === JSON.stringify(now) ? before : now;
}

/** The picture's parts with those that changed, in the order of drawing. */
function parts(seen: Seen): Map<string, string> {
  const changed = new Map(seen.picture.parts.map((part) => [part.key, part.markup]));
  return new Map(seen.keys.map((key) => [key, changed.get(key) ?? state.parts.get(key) ?? ""]));
}

/** The document with what the core made of its progress, when the plan was solved round that. */
function settled(before: string | null, progress: string | null): Doc {
  const equal = (own: object | null, text: string | null) =>
    own === null ? text === null : text !== null && JSON.stringify(own) === JSON.stringify(JSON.parse(text));
  const { doc } = state;
  if (equal(doc.before, before) && equal(doc.progress, progress)) return doc;
  return {
    ...doc,
    before: before === null ? null : (JSON.parse(before) as object),
    progress: progress === null ? null : (JSON.parse(progress) as object),
  };
}

export const client = new Client({
  seen: (seen, notes) => set({ seen, notes: same(state.notes, notes), parts: parts(seen), said: null, timed: null }),
  timed: (seen, stands) => {
    const doc = stands ? settled(stands.before, stands.progress) : state.doc;
    set({ timed: seen, seen, parts: parts(seen), doc });
  },
  refused: (said) => set({ said, timed: null }),
  broken: (said, again) => {
    if (!again) {
      set({ said, timed: null });
      return say(`This can't be worked out here (${said.reason}). Take the last change back.`);
    }
    say(`Something in this page gave way (${said.reason}). It was started afresh; nothing is lost.`);
    solve();
  },
  dead: (said) => {
    set({ said, timed: null });
    say(`Open this page in another browser: this one can't start what works the plan out (${said.reason}).`);
  },
  busy: (busy) => set({ busy }),
});

function solve() {
  client.setDrawings(state.doc.drawings);
  client.solve(sheet(state.doc, letters));
}

/** Has letters of the picture so high that the longer side of the quilt is so many of them. */
export function setLetters(many: number) {
  if (many === letters) return;
  letters = many;
  solve();
}

/** Puts another document in place. `merge` continues the last step, as while a field is typed in. */
export function change(doc: Doc, name: string, merge = false) {
  if (doc === state.doc) return;
  const past = merge ? state.past : [...state.past, { doc: state.doc, name }].slice(-MOST_STEPS);
  if (merge && past.length) past[past.length - 1] = { ...past[past.length - 1]!, name };
  set({ doc, past, future: [] });
  solve();
}

export function takeBack() {
  const step = state.past.at(-1);
  if (!step) return;
  const future = [...state.future, { doc: state.doc, name: step.name }];
  set({ doc: step.doc, past: state.past.slice(0, -1), future });
  solve();
}

export function putBack() {
  const step = state.future.at(-1);
  if (!step) return;
  const past = [...state.past, { doc: state.doc, name: step.name }];
  set({ doc: step.doc, past, future: state.future.slice(0, -1) });
  solve();
}

/** Starts with a document, with nothing before it. */
export function begin(doc: Doc) {
  client.showAll();
  set({ doc, past: [], future: [] });
  solve();
}

/** Puts what happened at the frame in place, which solves nothing anew. */
export function progressed(progress: object | null, name: string) {
  change({ ...state.doc, progress }, name);
}

/** Goes on with a document that was opened; what was before can be taken back. */
export function open(doc: Doc, name: string) {
  client.showAll();
  change(doc, name);
}

export function say(word: string | null, way: Way | null = null) {
  set({ word, way });
}

export function watchKept(kept: Keeping) {
  if (kept !== state.kept) set({ kept });
}

/** Calls this at each change of the state. */
export function subscribe(listener: () => void) {
  listeners.add(listener);
}

export function now(): State {
  return state;
}

/** Those of the state that a part of the page shows; it is drawn anew when one of them changes. */
export function useStore<K extends keyof State>(...keys: K[]): Pick<State, K> {
  const [, again] = useState(0);
  const shown = state;
  const own = useRef(shown);
  own.current = shown;
  useEffect(() => {
    const listener = () => {
      if (keys.every((key) => own.current[key] === state[key])) return;
      own.current = state;
      again((count) => count + 1);
    };
    listeners.add(listener);
    // What changed between drawing and listening is drawn, too.
    listener();
    return () => void listeners.delete(listener);
  }, []);
  return state;
}
