// What the page and its worker say to each other.

import type { Seen } from "quiltpath";

/** What went wrong, as the core says it; plain data, since errors lose their properties on the way. */
export interface Said {
  kind: string;
  message: string;
  reason: string;
  place: string | null;
  file: string | null;
  position: [number, number] | null;
  hint: string | null;
}

/** A plan as JSON text with what is known of its quilt. */
export interface Sheet {
  plan: string;
  /** What the plan was solved round, as JSON text. */
  before: string | null;
  /** What happened at the frame since, as JSON text. */
  progress: string | null;
  /** How many letters high the longer side of the picture is. */
  letters: number;
}

/** The answer to a verb that changes the progress. */
export interface Happened<T> {
  value: T;
  files: [string, Uint8Array][];
  /** The progress that came of it, as JSON text. */
  progress: string | null;
}

/** To the worker. */
export type Request =
  | { type: "module"; bytes: ArrayBuffer }
  | { type: "drawings"; set: [string, Uint8Array][]; remove: string[] }
  /** Solve, then stitch; a later turn stops an earlier one between the two. */
  | { type: "solve"; turn: number; sheet: Sheet; whole: boolean }
  /** Call a method of the worksheet, or "readAlone", which leaves it as it is. */
  | { type: "ask"; id: number; verb: string; values: unknown[] };

/** From the worker. */
export type Reply =
  | { type: "ready" }
  | { type: "seen"; turn: number; seen: Seen; notes: [string, string][] }
  | { type: "timed"; turn: number; seen: Seen; before: string | null; progress: string | null }
  | { type: "refused"; turn: number; said: Said }
  | { type: "answer"; id: number; value: unknown }
  | { type: "denied"; id: number; said: Said }
  /** The module gave up; a fresh worker is needed. */
  | { type: "broken"; message: string };
