// What the designs need of a plan: its borders' keys, and how they are changed.

import type { DrawingSeen } from "quiltpath";
import type { Said } from "../../core/protocol";
import { put } from "../../core/document";
import { change, now } from "../../core/store";

export type Role = "corner" | "side";

export type Length = number | string;

/** Where a line starts or ends: a word, or how far to the right and how far down. */
export type End = string | [Length, Length];

/** What there is of a drawing: shown, refused, both where it is refused for its ends, or nothing yet. */
export type Shown = { seen: DrawingSeen } | { refused: Said } | { seen: DrawingSeen; refused: Said } | null;

/** The keys of a border that this part changes. */
export interface BorderKeys {
  name?: string;
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

/** Puts values at keys of a border's corner or side; undefined takes a key out. */
export function edit(border: number, role: Role, keys: object, name: string, merge = false): void {
  let next = now().doc;
  for (const [key, value] of Object.entries(keys)) {
    next = put(next, ["borders", border, role, key], value);
  }
  change(next, name, merge);
}

/** The borders of the plan, as far as they are written. */
export function bordersOf(plan: { [key: string]: unknown }): BorderKeys[] {
  const borders = Array.isArray(plan["borders"]) ? plan["borders"] : [];
  return borders.map((border: Partial<BorderKeys>) => {
    const motif: Motif = border.side?.motif ?? "";
    const [shown = ""] = designs(motif);
    return {
      ...border,
      corner: { ...(border.corner ?? { style: "open" }) },
      side: { ...border.side, motif: shown, stitched: stitched(motif) },
    };
  });
}
