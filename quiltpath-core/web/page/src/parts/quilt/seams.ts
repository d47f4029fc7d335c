// The seam of the outermost border on the drawing, to be dragged: the width of that border.

import { type Plan, put } from "../../core/document";
import { type Unit, number, snapped, step, written } from "../../core/lengths";
import { change, now, takeBack } from "../../core/store";
import { handle } from "../../drag";

type SideName = "top" | "right" | "bottom" | "left";
const INWARDS: Record<SideName, [number, number]> = { top: [0, 1], right: [-1, 0], bottom: [0, -1], left: [1, 0] };

/** The width of a border on one side, as written. */
export function widthOf(border: Plan, side: SideName): unknown {
  const width = border.width;
  return width !== null && typeof width === "object" ? (width as Plan)[side] : width;
}

/** The handles of the four seams of the first border. */
export function seamHandles(unit: Unit, wide: number, high: number, perPixel: () => number) {
  const border = now().doc.plan.borders?.[0] as Plan | undefined;
  if (!border) return [];
  return (Object.keys(INWARDS) as SideName[]).flatMap((side) => {
    const width = number(widthOf(border, side), unit);
    if (width === null) return [];
    const [x, y] = INWARDS[side];
    let start = width;
    const to = (by: number, merge: boolean) => {
      const own = now().doc.plan.borders[0] as Plan;
      if (!merge) start = number(widthOf(own, side), unit) ?? width;
      const text = written(snapped(Math.max(step(unit), start + by), unit), unit);
      const each = own.width !== null && typeof own.width === "object";
      const path = each ? ["borders", 0, "width", side] : ["borders", 0, "width"];
      change(put(now().doc, path, text), `border, ${written(start, unit)} to ${text}`, merge);
    };
    const flat = side === "top" || side === "bottom";
    const at = { top: width / high, bottom: 1 - width / high, left: width / wide, right: 1 - width / wide }[side];
    return [
      {
        key: `seam-${side}`,
        flat,
        style: flat ? { left: "50%", top: `${100 * at}%` } : { left: `${100 * at}%`, top: "50%" },
        attributes: handle({
          label: `Seam, ${side}: width of the border; drag or use the arrow keys`,
          onMove: (right, down, merge) => to((right * x + down * y) * perPixel(), merge),
          onStep: (right, down, large) => to((right * x + down * y) * (large ? (unit === "mm" ? 10 : 1) : step(unit)), false),
          onDrop: takeBack,
        }),
      },
    ];
  });
}
