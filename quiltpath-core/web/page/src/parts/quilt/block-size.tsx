// How large blocks are: what the borders leave, squares of one side, or rows and columns that differ.

import type { Plan } from "../../core/document";
import { put } from "../../core/document";
import { written } from "../../core/lengths";
import { change, now } from "../../core/store";
import { Choose, Field } from "../../field";
import { blockSizes, counted } from "./blocks-drawn";
import { boxOf, innerBox } from "./inner";
import { unitOf } from "./shape";

const LISTS = [
  ["heights", "rows", "row", "high"],
  ["widths", "columns", "column", "wide"],
] as const;

function isLists(size: unknown): size is Plan {
  return size !== null && typeof size === "object";
}

/** The size of the blocks of a plan, its lists as long as there are rows and columns. */
export function listsFor(plan: Plan): unknown {
  const { size } = plan.blocks as Plan;
  if (!isLists(size)) return size;
  const fitted = LISTS.map(([key, of]) => {
    const own = (size[key] ?? []) as unknown[];
    const count = counted(plan.blocks[of]) || own.length;
    return [key, Array.from({ length: count }, (_, at) => own[Math.min(at, own.length - 1)] ?? "")];
  });
  return Object.fromEntries(fitted);
}

/** Lists of the sizes that blocks have now. */
function lists(): Plan {
  const { plan } = now().doc;
  const unit = unitOf(plan);
  const sizes = blockSizes(plan, innerBox(plan, ...boxOf(plan.quilt ?? {}, unit), unit), unit);
  const text = (length: number | undefined) => (length && length > 0 ? written(length, unit) : "");
  const list = (count: number, own: number[] | undefined) => Array.from({ length: count }, (_, at) => text(own?.[at]));
  return {
    heights: list(counted(plan.blocks.rows), sizes?.[0]),
    widths: list(counted(plan.blocks.columns), sizes?.[1]),
  };
}

export function BlockSize({ blocks, point, fits }: { blocks: Plan; point: boolean; fits: string | null }) {
  const { size } = blocks;
  const each = isLists(size);
  const set = (value: unknown, name: string, merge = false) => {
    change(put(now().doc, ["blocks", "size"], value), `blocks, ${name}`, merge);
  };
  return (
    <>
      {!point && (
        <p class="line">
          <span>Rows and columns:</span>{" "}
          <Choose
            name="sizes"
            label="Sizes of rows and columns"
            value={each ? "each" : "alike"}
            among={[["alike", "alike"], ["each", "each its own"]]}
            onChoose={(how) =>
              how === "each" ? set(lists(), "rows and columns each their own") : set(undefined, "rows and columns alike")
            }
          />
        </p>
      )}
      {each ? (
        LISTS.map(([key, of, one, way]) => (
          <div class="widths sizes" key={key} role="group" aria-label={`Sizes of the ${of}`}>
            {((size[key] ?? []) as unknown[]).map((length, at) => (
              <span key={at}>
                <small>{`${one} ${at + 1}`}</small>
                <Field
                  label={`${one.charAt(0).toUpperCase()}${one.slice(1)} ${at + 1}, how ${way}`}
                  value={length}
                  place={["blocks", "size", key, at]}
                  wide={4}
                  onWrite={(text, merge) => {
                    const before = now().doc.plan.blocks.size as Plan;
                    const list = (before[key] as unknown[]).map((own, index) => (index === at ? text : own));
                    set({ ...before, [key]: list }, `${one} ${at + 1} ${way}, ${text || "blank"}`, merge);
                  }}
                />
              </span>
            ))}
          </div>
        ))
      ) : (
        <p class="line">
          <Field
            label="Side of a block"
            value={size}
            place={["blocks", "size"]}
            blank={fits ?? "as fits"}
            wide={6}
            onWrite={(text, merge) => set(text || undefined, `side ${text || "as fits"}`, merge)}
          />{" "}
          <span>is the side of a block, seam to seam</span>
        </p>
      )}
    </>
  );
}
