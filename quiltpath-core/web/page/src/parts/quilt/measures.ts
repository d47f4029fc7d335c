// The six measures of a quilt of four sides, and the keys of the plan that they are.

import type { Plan } from "../../core/document";
import { edgeOf } from "./shape";

export const MEASURES = ["top", "right", "bottom", "left", "falling", "rising"] as const;
export type Measure = (typeof MEASURES)[number];

/** The measures as written; blank where they follow from others. */
export type Measures = Record<Measure, string>;

const text = (value: unknown) => (value === undefined || value === null ? "" : String(value));

/** The measures of a quilt with width and height, or with its sides and diagonals. */
export function measures(quilt: Plan): Measures {
  const of = (key: string) => text(quilt[key]);
  if ("width" in quilt || "height" in quilt) {
    return { top: of("width"), left: of("height"), right: "", bottom: "", falling: "", rising: "" };
  }
  const across = (one: string, other: string) => (of(one) === of(other) ? "" : of(one));
  return {
    top: of("top"),
    left: of("left"),
    right: across("right", "left"),
    bottom: across("bottom", "top"),
    falling: of("falling"),
    rising: of("rising"),
  };
}

/** The quilt of these measures, its edge as it was. */
export function quiltOf(own: Measures, before: Plan): Plan {
  if (!own.right && !own.bottom && !own.falling && !own.rising) {
    return { width: own.top, height: own.left, ...edgeOf(before) };
  }
  return {
    top: own.top,
    right: own.right || own.left,
    bottom: own.bottom || own.top,
    left: own.left,
    ...(own.falling && { falling: own.falling }),
    ...(own.rising && { rising: own.rising }),
    ...edgeOf(before),
  };
}

/** The key that the core names when a measure is wrong. */
export function keyOf(quilt: Plan, measure: Measure): string {
  const square = "width" in quilt || "height" in quilt;
  return square && measure === "top" ? "width" : square && measure === "left" ? "height" : measure;
}

export const SAID: Record<Measure, string> = {
  top: "Top edge",
  right: "Right edge",
  bottom: "Bottom edge",
  left: "Left edge",
  falling: "Diagonal, top left to bottom right",
  rising: "Diagonal, bottom left to top right",
};
