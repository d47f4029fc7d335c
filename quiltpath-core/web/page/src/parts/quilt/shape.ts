// The shape of the quilt: how its outline is measured, and what of a plan follows from that.

import { type Doc, type Plan, put } from "../../core/document";
import { type Unit, number } from "../../core/lengths";
import { now } from "../../core/store";

export type Shape = "sides" | "corners" | "circle" | "ellipse";

export function shapeOf(quilt: Plan): Shape {
  return (["corners", "circle", "ellipse"] as const).find((shape) => quilt[shape]) ?? "sides";
}

export function unitOf(plan: Plan): Unit {
  return (plan.unit ?? "in") as Unit;
}

/** The width of a border where it is one for all sides, or its first one. */
function firstWidth(border: Plan): unknown {
  const { width } = border;
  return width !== null && typeof width === "object" ? Object.values(width as Plan)[0] : width;
}

/** Whether a border runs round without a corner, as the core has it; so many of them lie outside it. */
export function runsRound(plan: Plan, outside: number): boolean {
  const quilt = plan.quilt ?? {};
  const shape = shapeOf(quilt);
  if (shape === "circle" || shape === "ellipse") return true;
  const unit = unitOf(plan);
  const radius = number(quilt.rounding, unit);
  if (!radius) return false;
  const before = ((plan.borders ?? []) as Plan[]).slice(0, outside);
  return radius > before.reduce((sum, border) => sum + (number(firstWidth(border), unit) ?? 0), 0);
}

/** Whether the borders have four sides that can be told apart. */
export function hasFourSides(plan: Plan, border: number): boolean {
  const corners = plan.quilt?.corners;
  return !runsRound(plan, border) && (!Array.isArray(corners) || corners.length === 4);
}

/** The drawing of a border that runs round: one for all of it. */
function oneDrawing(side: Plan): Plan {
  const { repeats: _, opposite_alike: __, ...rest } = side;
  const { motif } = side;
  if (motif === null || typeof motif !== "object") return rest;
  return { ...rest, motif: Object.values(motif as Plan).find((name) => typeof name === "string") ?? "" };
}

/** The document with this quilt; borders that run round it have no corners and no sides of their own. */
export function withQuilt(doc: Doc, quilt: Plan): Doc {
  const next = put(doc, ["quilt"], quilt);
  const borders = ((next.plan.borders ?? []) as Plan[]).map((border, at) => {
    if (!runsRound(next.plan, at)) return border;
    const { corner: _, stations: __, ...rest } = border;
    return { ...rest, width: firstWidth(border), ...(border.side && { side: oneDrawing(border.side as Plan) }) };
  });
  return next.plan.borders ? put(next, ["borders"], borders) : next;
}

/** What the edge of a quilt keeps when it is measured otherwise: its corners' radius, and scallops
 * as long as it is round. */
export function edgeOf({ rounding, scallops }: Plan, oval = false): Plan {
  const rounded = !oval && rounding !== undefined;
  return { ...(rounded && { rounding }), ...((oval || rounded) && scallops && { scallops }) };
}

/** The document that a change builds on; what is written goes on from before its first key, since a
 * number on its way may make a border round that is not in the end. */
export function before(merge: boolean): Doc {
  return (merge && now().past.at(-1)?.doc) || now().doc;
}

/** An outline as a path, its corners rounded to a radius, as far as its sides reach. */
export function rounded(points: (readonly [number, number])[], radius: number): string {
  const count = points.length;
  const parts = points.map(([x, y], at) => {
    const [[ax, ay], [bx, by]] = [points[(at + count - 1) % count]!, points[(at + 1) % count]!];
    const [before, after] = [Math.hypot(ax - x, ay - y), Math.hypot(bx - x, by - y)];
    const [ux, uy, vx, vy] = [(ax - x) / before, (ay - y) / before, (bx - x) / after, (by - y) / after];
    const tangent = Math.tan(Math.acos(Math.max(-1, Math.min(1, ux * vx + uy * vy))) / 2);
    const cut = Math.min(radius / tangent, before / 2, after / 2);
    if (!(radius > 0) || !Number.isFinite(cut)) return `L${x} ${y}`;
    const own = cut * tangent;
    return `L${x + ux * cut} ${y + uy * cut}A${own} ${own} 0 0 1 ${x + vx * cut} ${y + vy * cut}`;
  });
  return `M${parts.join("").slice(1)}Z`;
}

/** An ellipse in a box as a path. */
export function oval(left: number, top: number, right: number, bottom: number): string {
  const [rx, ry, y] = [(right - left) / 2, (bottom - top) / 2, (top + bottom) / 2];
  return rx > 0 && ry > 0 ? `M${left} ${y}A${rx} ${ry} 0 1 1 ${right} ${y}A${rx} ${ry} 0 1 1 ${left} ${y}Z` : "";
}
