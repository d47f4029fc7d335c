// The document: what she filled in, never changed in place, and the file that it is kept in.

import type { Sheet } from "./protocol";

/** A plan as she wrote it; `quiltpath schema` says what it may hold. */
// eslint-disable-next-line -- the core checks it; the page only puts values where the schema has keys
export type Plan = { [key: string]: any };

export interface Doc {
  readonly plan: Plan;
  readonly drawings: ReadonlyMap<string, Uint8Array>;
  readonly before: object | null;
  readonly progress: object | null;
}

export const EMPTY: Doc = {
  plan: { unit: "in", quilt: { width: "", height: "" }, borders: [] },
  drawings: new Map(),
  before: null,
  progress: null,
};

/** What the worker solves, its picture with letters so high. */
export function sheet(doc: Doc, letters: number): Sheet {
  return {
    letters,
    plan: JSON.stringify(doc.plan),
    before: doc.before && JSON.stringify(doc.before),
    progress: doc.progress && JSON.stringify(doc.progress),
  };
}

function bytes(drawing: unknown): Uint8Array {
  if (typeof drawing === "string") return new TextEncoder().encode(drawing);
  const text = (drawing as { base64?: unknown } | null)?.base64;
  if (typeof text !== "string") throw new Error("a drawing is neither text nor base64");
  return Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
}

const isObject = (value: unknown) => typeof value === "object" && value !== null && !Array.isArray(value);
const isAbsent = (value: unknown) => value === undefined;

/** What has keys of its own where it is there at all. */
const WITH_KEYS = [
  "quilt", "quilt.circle", "quilt.ellipse", "quilt.scallops", "machine", "blocks", "blocks.block", "blocks.sashing",
  "blocks.sashing.side", "blocks.sashing.cornerstone", "blocks.triangles", "blocks.triangles.side",
  "blocks.triangles.corner",
].map((path) => path.split("."));

/** What of a plan the page can't show; null where it can. What stands in it is the core's to judge. */
function unshown(plan: unknown): string | null {
  if (!isObject(plan)) return "the plan has no keys";
  const { quilt, borders } = plan as Plan;
  if (isAbsent(quilt) && isAbsent(borders)) return "the plan has neither quilt nor borders";
  for (const path of WITH_KEYS) {
    const own = at(plan as Plan, path);
    if (!isAbsent(own) && !isObject(own)) return `${path.join(".")} has no keys`;
  }
  const pairs = quilt?.corners;
  const isPair = (pair: unknown) => Array.isArray(pair) && pair.length === 2;
  if (!isAbsent(pairs) && !(Array.isArray(pairs) && pairs.every(isPair))) return "quilt.corners is no list of places";
  if (!isAbsent(borders) && !Array.isArray(borders)) return "borders is no list";
  for (const [index, border] of (borders ?? []).entries()) {
    if (!isObject(border)) return `borders[${index}] has no keys`;
    for (const key of ["corner", "side"]) {
      if (!isAbsent(border[key]) && !isObject(border[key])) return `borders[${index}].${key} has no keys`;
    }
  }
  for (const key of ["heights", "widths"]) {
    const list = at(plan as Plan, ["blocks", "size", key]);
    if (!isAbsent(list) && !Array.isArray(list)) return `blocks.size.${key} is no list`;
  }
  return null;
}

/** A sheet that is one but for what the message says. */
export class Unshown extends Error {}

const MOST_NAME_BYTES = 120;
const IN_NO_NAME = /[\p{Cc}/\\:*?"<>|]/gu;

/** The nearest name that a drawing may have: one that files may have on every system, as in the core. */
export function drawingName(name: string): string {
  const size = (letters: string[]) => new TextEncoder().encode(letters.join("")).length;
  const plain = name.replace(IN_NO_NAME, "-").replace(/^\.+/, "");
  const letters = [...plain.slice(0, MOST_NAME_BYTES)];
  while (size(letters) > MOST_NAME_BYTES) letters.pop();
  return letters.join("").replace(/[. ]+$/, "") || "drawing";
}

/** The document in a quilt's one file, or of a plan alone. Throws what is none. */
export function opened(text: string): Doc {
  const file = JSON.parse(text) as { [key: string]: unknown };
  if (!file || typeof file !== "object") throw new Error("this is no plan");
  const alone = !("drawings" in file && "plan" in file);
  const wrong = unshown(alone ? file : file.plan);
  if (wrong) throw new Error(wrong);
  const drawings = alone ? {} : (file.drawings as { [name: string]: unknown });
  return {
    plan: (alone ? file : file.plan) as Plan,
    drawings: new Map(Object.entries(drawings).map(([name, drawing]) => [name, bytes(drawing)])),
    before: (alone ? null : (file.before as object | undefined)) ?? null,
    progress: (alone ? null : (file.progress as object | undefined)) ?? null,
  };
}

/** The same of a file or a link from elsewhere. Throws `Unshown` where it is a sheet that can't be taken. */
export function brought(text: string): Doc {
  const doc = opened(text);
  const unnamed = [...doc.drawings.keys()].find((name) => drawingName(name) !== name);
  if (unnamed === undefined) return doc;
  const short = unnamed.length > 60 ? `${unnamed.slice(0, 60)} …` : unnamed;
  throw new Unshown(`"${short}" is no name for a drawing; give a plain file name such as "border.svg"`);
}

/** The document as one file, as the core writes it but for the order of keys. */
export function kept(doc: Doc): string {
  const utf8 = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  const drawing = (own: Uint8Array) => {
    try {
      return utf8.decode(own);
    } catch {
      let text = "";
      for (let at = 0; at < own.length; at += 0x8000) {
        text += String.fromCharCode(...own.subarray(at, at + 0x8000));
      }
      return { base64: btoa(text) };
    }
  };
  return JSON.stringify({
    plan: doc.plan,
    drawings: Object.fromEntries([...doc.drawings].map(([name, own]) => [name, drawing(own)])),
    ...(doc.before && { before: doc.before }),
    ...(doc.progress && { progress: doc.progress }),
  });
}

/** The document with a value of its plan put in place, by its key path; `undefined` takes it out. */
export function put(doc: Doc, path: (string | number)[], value: unknown): Doc {
  const set = (at: unknown, [key, ...rest]: (string | number)[]): unknown => {
    if (key === undefined) return value;
    const copy: any = Array.isArray(at) ? [...at] : { ...(at as object) };
    const below = set(copy[key], rest);
    if (below === undefined && !Array.isArray(copy)) delete copy[key];
    else copy[key] = below;
    return copy;
  };
  return { ...doc, plan: set(doc.plan, path) as Plan };
}

/** What stands at a key path of the plan. */
export function at(plan: Plan, path: (string | number)[]): unknown {
  return path.reduce<any>((value, key) => value?.[key], plan);
}
