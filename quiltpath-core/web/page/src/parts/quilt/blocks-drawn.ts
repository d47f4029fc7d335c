// Where the blocks lie within the borders, for the drawing of the outline, and how large one is
// where nothing is written. What counts is worked out by the core.

import type { Plan } from "../../core/document";
import { type Unit, number } from "../../core/lengths";
import { type Box, boxOf, innerBox } from "./inner";

/** So many blocks are drawn one by one. */
const MOST_DRAWN = 2500;

/** How many rows or columns are written. */
export function counted(value: unknown): number {
  const own = Number(value);
  return Number.isInteger(own) && own > 0 ? own : 0;
}

/** Heights of rows and widths of columns, in the plan's unit; null where they can't be told. */
export function blockSizes(plan: Plan, [left, top, right, bottom]: Box, unit: Unit): [number[], number[]] | null {
  const blocks: Plan | undefined = plan.blocks;
  const [rows, columns] = [counted(blocks?.rows), counted(blocks?.columns)];
  if (!blocks || !rows || !columns || rows * columns > MOST_DRAWN) return null;
  const { size } = blocks;
  if (size !== null && typeof size === "object") {
    const list = (key: string) => ((size as Plan)[key] ?? []).map((length: unknown) => number(length, unit) ?? 0) as number[];
    return [list("heights"), list("widths")];
  }
  const all = (side: number, other = side): [number[], number[]] => [Array(rows).fill(side), Array(columns).fill(other)];
  const one = number(size, unit);
  if (one) return all(one);
  if (size !== undefined) return null;
  const [wide, high] = [right - left, bottom - top];
  if (blocks.setting === "on_point") return all(Math.min(wide / columns, high / rows) / Math.SQRT2);
  const sash = number(blocks.sashing?.width, unit) ?? 0;
  const shared = (length: number, count: number) => (length - sash * (count + (blocks.sashing?.outer ? 1 : -1))) / count;
  return all(shared(high, rows), shared(wide, columns));
}

/** The side of the largest block, in the plan's unit. */
export function blockSize(plan: Plan, unit: Unit): number | null {
  const box = innerBox(plan, ...boxOf(plan.quilt ?? {}, unit), unit);
  const sizes = blockSizes(plan, box, unit)?.flat() ?? [];
  const most = Math.max(0, ...sizes);
  return most > 0 ? most : null;
}

/** Each block as an outline, in one path. */
export function blocksPath(plan: Plan, box: Box, unit: Unit): string {
  const sizes = blockSizes(plan, box, unit);
  if (!sizes) return "";
  const [heights, widths] = sizes;
  const middle = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2] as const;
  const point = plan.blocks.setting === "on_point";
  const sash = point ? 0 : (number(plan.blocks.sashing?.width, unit) ?? 0);
  const places = (lengths: number[], centre: number) => {
    const own = lengths.map((length) => (point ? length * Math.SQRT2 : length));
    let at = centre - (own.reduce((sum, length) => sum + length, 0) + sash * (own.length - 1)) / 2;
    return own.map((length) => {
      const from = at;
      at += length + sash;
      return [from, from + length] as const;
    });
  };
  const columns = places(widths, middle[0]);
  // Blocks on point that touch the edges draw those between them, too.
  const block = ([left, right]: readonly [number, number], [top, bottom]: readonly [number, number]) => {
    const [x, y] = [(left + right) / 2, (top + bottom) / 2];
    return point ? `M${x} ${top}L${right} ${y}L${x} ${bottom}L${left} ${y}Z` : `M${left} ${top}H${right}V${bottom}H${left}Z`;
  };
  return places(heights, middle[1]).flatMap((row) => columns.map((column) => block(column, row))).join("");
}
