// What the designs need of a plan: the keys of its borders and blocks, and how they are changed.

import type { DrawingSeen } from "quiltpath";
import type { Said } from "../../core/protocol";
import { at as valueAt, put, type Plan } from "../../core/document";
import { change, now } from "../../core/store";
import type { Place } from "./places";

export type Length = number | string;

/** Where a line starts or ends: a word, or how far to the right and how far down. */
export type End = string | [Length, Length];

/** What there is of a drawing: shown, refused, both where it is refused for its ends, or nothing yet. */
export type Shown = { seen: DrawingSeen } | { refused: Said } | { seen: DrawingSeen; refused: Said } | null;

/** The keys of a border that this part changes. */
export interface BorderKeys {
  name?: string;
  orientation?: "as_drawn" | "best";
  corner: CornerKeys;
  side: SideKeys;
}

export interface CornerKeys {
  style: string;
  motif?: string;
  start?: End;
  end?: End;
  arrangement?: "mirrored" | "turned";
  leg?: { horizontal_depth?: Length; vertical_depth?: Length };
  trim?: { leg_depth: Length; elbow?: string };
  through?: "top_bottom" | "left_right";
  on_point?: boolean;
  smooth?: Length;
}

export interface SideKeys {
  /** The design that is shown: the only one, or the first of those that sides have of their own. */
  motif: string;
  /** Which sides are stitched. */
  stitched: Stitched;
  start?: End;
  end?: End;
  alternate?: string;
  ease?: boolean;
  /** The number of repeats, where it is given. */
  repeats?: unknown;
  /** A plain length in the middle: a length, `rest`, or one for each side. */
  spacer?: unknown;
}

/** Which of four sides are stitched; `other` where it is none of these, or there are not four. */
export type Stitched = "all" | "top_bottom" | "left_right" | "none" | "other";

/** A drawing for all sides, or one for each that has one. */
type Motif = string | { [side: string]: string | undefined } | (string | null)[];

/** The designs that sides have, by the names of four sides; the same name for all of one. */
function designs(motif: Motif): string[] {
  return (typeof motif === "string" ? [motif] : Object.values(motif)).filter((name) => typeof name === "string");
}

function stitched(motif: Motif): Stitched {
  if (typeof motif === "string") return "all";
  const sides = Array.isArray(motif) ? "list" : Object.keys(motif).sort().join(" ");
  const known: { [sides: string]: Stitched } = { "": "none", "bottom top": "top_bottom", "left right": "left_right" };
  return known[sides] ?? "other";
}

/** The same drawing on these sides. */
export function onSides(name: string, sides: Stitched): Motif {
  const own = { top_bottom: ["top", "bottom"], left_right: ["left", "right"], none: [] as string[] };
  return sides === "all" || sides === "other" ? name : Object.fromEntries(own[sides].map((side) => [side, name]));
}

/** The drawing in place of the one that is shown, on the sides that have it. */
export function inPlace(motif: unknown, name: string): Motif {
  const before = (motif ?? "") as Motif;
  const [shown] = designs(before);
  if (typeof before === "string" || shown === undefined) return name;
  if (Array.isArray(before)) return before.map((own) => (own === shown ? name : own));
  return Object.fromEntries(Object.entries(before).map(([side, own]) => [side, own === shown ? name : own]));
}

/** Puts values at keys of a place; undefined takes a key out. */
export function edit(place: Place, keys: object, name: string, merge = false): void {
  let next = now().doc;
  for (const [key, value] of Object.entries(keys)) {
    next = put(next, [...place.path, key], value);
  }
  change(next, name, merge);
}

/** Sides, or sashes, with the one design that is shown. */
export function sideKeys(side: Partial<Omit<SideKeys, "motif">> & { motif?: Motif } = {}): SideKeys {
  const motif: Motif = side.motif ?? "";
  const [shown = ""] = designs(motif);
  return { ...side, motif: shown, stitched: stitched(motif) };
}

/** The borders of the plan, as far as they are written. */
export function bordersOf(plan: Plan): BorderKeys[] {
  const borders = Array.isArray(plan["borders"]) ? plan["borders"] : [];
  return borders.map((border: Partial<BorderKeys>) => ({
    ...border,
    corner: { ...(border.corner ?? { style: "open" }) },
    side: sideKeys(border.side),
  }));
}

/** What the plan says of a drawing at its place. */
export function keysAt(plan: Plan, place: Place): { motif?: string; start?: End; end?: End } {
  const own = (valueAt(plan, place.path) ?? {}) as CornerKeys;
  return place.role === "side" ? sideKeys(own) : own;
}
