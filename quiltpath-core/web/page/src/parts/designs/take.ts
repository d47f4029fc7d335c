// Taking a file for a place of the plan: a drawing as it is, or a photo that is read to lines first.

import type { Scanned } from "quiltpath";
import { at as valueAt, drawingName, opened, put, type Doc } from "../../core/document";
import type { Said } from "../../core/protocol";
import { change, client, now } from "../../core/store";
import { inPlace } from "./keys";
import type { Place } from "./places";

/** A file that is larger is not read at all. */
const MOST_BYTES = 64e6;

/** What came of a file: put in place, a photo to look at first, or why not, in words. */
export type Taken = { said: string | null } | { photo: Photo };

/** A photo that was read, to look at before it is taken. */
export interface Photo {
  name: string;
  bytes: Uint8Array;
  scanned: Scanned;
  place: Place;
}

export async function take(file: File, place: Place): Promise<Taken> {
  if (file.size > MOST_BYTES) {
    const size = Math.round(file.size / 1e6);
    return { said: `${file.name} is ${size} MB. A drawing may be ${MOST_BYTES / 1e6} MB; save it with fewer points.` };
  }
  if (file.size === 0) return { said: `${file.name} is empty. Save the drawing again.` };
  const bytes = new Uint8Array(await file.arrayBuffer());
  const name = drawingName(file.name);
  try {
    if (isPicture(bytes)) return { photo: await scan(name, bytes, place, null) };
    await client.ask("checkDrawing", name, bytes);
  } catch (error) {
    if (isSheet(bytes)) return { said: `${file.name} is a plan, not a drawing. Open it at the top of the page.` };
    return { said: `${file.name} can't be taken: ${(error as Said).reason}.` };
  }
  putIn(name, bytes, place);
  return { said: null };
}

/** Reads a photo; `width` is how wide the drawing is in millimetres, where she says so. */
export async function scan(
  name: string,
  bytes: Uint8Array,
  place: Place,
  width: number | null,
): Promise<Photo> {
  const scanned = await client.ask<Scanned>("scan", stem(name), bytes, width ?? undefined);
  return { name, bytes, scanned, place };
}

/** Takes what was read from a photo. */
export function takePhoto({ name, scanned, place }: Photo): void {
  putIn(`${stem(name)}.svg`, new TextEncoder().encode(scanned.drawing), place);
}

/** Puts a drawing beside the plan and into its place, as one step. */
function putIn(name: string, bytes: Uint8Array, { path, role, what }: Place): void {
  const { doc } = now();
  const own = freeName(doc, name, bytes);
  const drawings = new Map(doc.drawings).set(own, bytes);
  const motif = role === "side" ? inPlace(valueAt(doc.plan, [...path, "motif"]), own) : own;
  let next = put({ ...doc, drawings }, [...path, "motif"], motif);
  // What was said of another drawing's legs and ends is not said of this one.
  const keys = role === "corner" ? ["leg", "trim", "start", "end"] : ["start", "end"];
  for (const key of keys) next = put(next, [...path, key], undefined);
  change(next, `${own} for ${what}`);
}

/** The name, or one like it that no other drawing has. */
function freeName(doc: Doc, name: string, bytes: Uint8Array): string {
  const same = (other: Uint8Array | undefined) =>
    other === undefined || (other.length === bytes.length && other.every((byte, at) => byte === bytes[at]));
  if (same(doc.drawings.get(name))) return name;
  const dot = name.lastIndexOf(".");
  const [first, end] = dot > 0 ? [name.slice(0, dot), name.slice(dot)] : [name, ""];
  for (let number = 2; ; number += 1) {
    const next = `${first}-${number}${end}`;
    if (same(doc.drawings.get(next))) return next;
  }
}

function stem(name: string): string {
  const dot = name.lastIndexOf(".");
  return dot > 0 ? name.slice(0, dot) : name;
}

/** Whether a file that is no drawing is a sheet, or a plan alone. */
function isSheet(bytes: Uint8Array): boolean {
  try {
    return Boolean(opened(new TextDecoder().decode(bytes)));
  } catch {
    return false;
  }
}

/** PNG and JPEG by their first bytes. */
function isPicture(bytes: Uint8Array): boolean {
  const starts = (wanted: number[]) => wanted.every((byte, at) => bytes[at] === byte);
  return starts([0x89, 0x50, 0x4e, 0x47]) || starts([0xff, 0xd8, 0xff]);
}
