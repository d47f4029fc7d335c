// What the borders leave of the quilt, for the drawing of the outline: the seam of the innermost
// border, and how large all of it is.

import type { Plan } from "../../core/document";
import { type Unit, number, signed } from "../../core/lengths";
import { measures } from "./measures";
import { oval, rounded, runsRound, shapeOf } from "./shape";

/** Width and height of a quilt, in the plan's unit; of one that can't be read a guess. */
export function boxOf(quilt: Plan, unit: Unit): [number, number] {
  const or = (value: unknown, guess: number) => number(value, unit) || guess;
  switch (shapeOf(quilt)) {
    case "circle": {
      const diameter = or(quilt.circle.diameter, 60);
      return [diameter, diameter];
    }
    case "ellipse":
      return [or(quilt.ellipse.width, 60), or(quilt.ellipse.height, 80)];
    case "corners": {
      const along = (axis: 0 | 1) => {
        const all = (quilt.corners as unknown[][]).map((corner) => signed(corner[axis], unit) ?? 0);
        return Math.max(...all) - Math.min(...all);
      };
      return [along(0) || 60, along(1) || 80];
    }
    case "sides": {
      const own = measures(quilt);
      return [or(own.top, 60), or(own.left, 80)];
    }
  }
}

/** A box from left and top to right and bottom. */
export type Box = [number, number, number, number];

/** What the borders leave of a quilt of this size. */
export function innerBox(plan: Plan, wide: number, high: number, unit: Unit): Box {
  let [left, top, right, bottom] = [0, 0, wide, high];
  for (const border of (plan.borders ?? []) as Plan[]) {
    const width = border.width ?? 0;
    const of = (side: string) =>
      number(typeof width === "object" && width !== null ? (width as Plan)[side] : width, unit) ?? 0;
    [left, top, right, bottom] = [left + of("left"), top + of("top"), right - of("right"), bottom - of("bottom")];
  }
  return [left, top, right, bottom];
}

/** The seam of the innermost border as a path, for the drawing. */
export function innerSeam(plan: Plan, wide: number, high: number, unit: Unit): string {
  const [left, top, right, bottom] = innerBox(plan, wide, high, unit);
  if (right <= left || bottom <= top) return "";
  const shape = shapeOf(plan.quilt ?? {});
  if (shape === "circle" || shape === "ellipse") return oval(left, top, right, bottom);
  const radius = runsRound(plan, (plan.borders ?? []).length) ? (number(plan.quilt.rounding, unit) ?? 0) - left : 0;
  return rounded([[left, top], [right, top], [right, bottom], [left, bottom]], radius);
}
