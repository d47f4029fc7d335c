// The places of a plan that have a drawing, in the order in which they are shown.

import type { Plan } from "../../core/document";
import { runsRound } from "../quilt/shape";

/** How a drawing is taken: as one that stands by itself, or as a repeat. */
export type Role = "corner" | "side";

export interface Place {
  /** Where its keys are in the plan. */
  path: (string | number)[];
  role: Role;
  /** The number of its border; null within the borders. */
  border: number | null;
  /** What it is for: "the corners". */
  what: string;
  /** Its drawing, for those who listen. */
  called: string;
}

/** A name for a place that no other has. */
export function keyOf(place: Place): string {
  return place.path.join(" ");
}

export function cornersOf(border: number): Place {
  const path = ["borders", border, "corner"];
  return { path, role: "corner", border, what: "the corners", called: "the corner design" };
}

export function sidesOf(border: number, round: boolean): Place {
  const path = ["borders", border, "side"];
  const what = round ? "the border" : "the sides";
  return { path, role: "side", border, what, called: `the design for ${what}` };
}

/** What lies in the middle of the sides. */
export function centreOf(border: number): Place {
  const path = ["borders", border, "side", "centre"];
  const what = "the middle of the sides";
  return { path, role: "side", border, what, called: `the design for ${what}` };
}

function within(what: string, called: string, role: Role, ...path: string[]): Place {
  return { path: ["blocks", ...path], role, border: null, what, called };
}

export const BLOCKS = within("the blocks", "the block's design", "corner", "block");
export const SASHES = within("the sashes", "the design for the sashes", "side", "sashing", "side");
export const CORNERSTONES = within(
  "the cornerstones",
  "the cornerstone's design",
  "corner",
  "sashing",
  "cornerstone",
);
export const SIDE_TRIANGLES = within(
  "the side triangles",
  "the side triangle's design",
  "corner",
  "triangles",
  "side",
);
export const CORNER_TRIANGLES = within(
  "the corner triangles",
  "the corner triangle's design",
  "corner",
  "triangles",
  "corner",
);

/** The places of a border: corners, unless it runs round, sides, and their middle where it has a
 * design. */
export function placesOfBorder(plan: Plan, border: number): Place[] {
  const round = runsRound(plan, border);
  if (round) return [sidesOf(border, round)];
  const centre = plan["borders"]?.[border]?.side?.centre ? [centreOf(border)] : [];
  return [cornersOf(border), sidesOf(border, round), ...centre];
}

/** Whether it is the middle of the sides. */
export function isCentre({ path }: Place): boolean {
  return path[3] === "centre";
}

/** The places within the borders. */
export function placesOfBlocks(plan: Plan): Place[] {
  const blocks = plan["blocks"] as Plan | undefined;
  if (!blocks) return [];
  if (blocks.setting === "on_point") {
    return blocks.triangles?.plain ? [BLOCKS] : [BLOCKS, SIDE_TRIANGLES, CORNER_TRIANGLES];
  }
  const { sashing } = blocks;
  if (!sashing) return [BLOCKS];
  return sashing.cornerstones === false ? [BLOCKS, SASHES] : [BLOCKS, SASHES, CORNERSTONES];
}
