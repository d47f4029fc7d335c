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
  motif: string;
  start?: End;
  end?: End;
  alternate?: string;
  ease?: boolean;
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
  return borders.map((border: Partial<BorderKeys>) => ({
    ...border,
    corner: { ...(border.corner ?? { style: "open" }) },
    side: { ...(border.side ?? { motif: "" }) },
  }));
}
