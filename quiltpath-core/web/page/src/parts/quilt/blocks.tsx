// The blocks within the borders: how many, how large, how they lie, and the strips between them.

import { type Doc, type Plan, put } from "../../core/document";
import { number, written } from "../../core/lengths";
import { change, now, useStore } from "../../core/store";
import { Choose, Field } from "../../field";
import { blockSizes, counted } from "./blocks-drawn";
import { BlockSize, listsFor } from "./block-size";
import { boxOf, innerBox } from "./inner";
import { Sashing } from "./sashing";
import { runsRound, unitOf } from "./shape";

/** About how large a block is that nothing is said of, in inches: common practice. */
const USUAL = 12;

/** The plan's blocks with a value at one of their keys, as one step; undefined takes a key out. */
export function edit(path: (string | number)[], value: unknown, name: string, merge = false) {
  change(put(now().doc, ["blocks", ...path], value), `blocks, ${name}`, merge);
}

/** As many blocks of the usual size as the borders leave room for. */
function usual(doc: Doc): Plan {
  const unit = unitOf(doc.plan);
  const [left, top, right, bottom] = innerBox(doc.plan, ...boxOf(doc.plan.quilt ?? {}, unit), unit);
  const side = number(`${USUAL} in`, unit)!;
  const many = (length: number) => Math.max(1, Math.min(50, Math.round(length / side)));
  return { rows: many(bottom - top), columns: many(right - left) };
}

/** The strips and triangles that go with how blocks lie. */
function lie(doc: Doc, setting: string): Doc {
  const { sashing, triangles, setting: _, ...rest } = doc.plan.blocks as Plan;
  const size = typeof rest.size === "object" ? undefined : rest.size;
  if (setting === "on_point") {
    const { size: __, ...others } = rest;
    return put(doc, ["blocks"], { ...others, ...(size !== undefined && { size }), setting, ...(triangles && { triangles }) });
  }
  return put(doc, ["blocks"], { ...rest, ...(sashing && { sashing }) });
}

function Count({ which, one }: { which: "rows" | "columns"; one: string }) {
  const { doc } = useStore("doc");
  const write = (text: string, merge: boolean) => {
    const count = /^\d+$/.test(text.trim()) ? Number(text) : text;
    let next = put(now().doc, ["blocks", which], count);
    next = put(next, ["blocks", "size"], listsFor(next.plan));
    change(next, `${text || "no"} ${text === "1" ? one : which} of blocks`, merge);
  };
  return (
    <Field
      label={`${which.charAt(0).toUpperCase()}${which.slice(1)} of blocks`}
      value={doc.plan.blocks[which]}
      place={["blocks", which]}
      wide={2}
      count
      onWrite={write}
    />
  );
}

/** The side of blocks that share what the borders leave; null where they are no squares. */
function fits(plan: Plan): string | null {
  const unit = unitOf(plan);
  const box = innerBox(plan, ...boxOf(plan.quilt ?? {}, unit), unit);
  const [heights = [], widths = []] = blockSizes(plan, box, unit) ?? [];
  const sides = [heights[0], widths[0]].map((side) => written(side ?? 0, unit));
  return widths[0]! > 0 && sides[0] === sides[1] ? sides[0]! : null;
}

export function Blocks() {
  const { doc } = useStore("doc");
  const blocks = doc.plan.blocks as Plan | undefined;
  if (!blocks) {
    if (runsRound(doc.plan, (doc.plan.borders ?? []).length)) return null;
    return (
      <p>
        <button class="link" onClick={() => change(put(now().doc, ["blocks"], usual(now().doc)), "blocks inside")}>
          Add blocks inside
        </button>
      </p>
    );
  }
  const point = blocks.setting === "on_point";
  const unit = unitOf(doc.plan);
  return (
    <article class="strip-of">
      <h3>Blocks inside</h3>
      <p class="line">
        <Count which="rows" one="row" /> <span>{blocks.rows === 1 ? "row" : "rows"} of</span>{" "}
        <Count which="columns" one="column" /> <span>{counted(blocks.columns) === 1 ? "block" : "blocks"}</span>
      </p>
      <p class="line">
        <span>They lie</span>{" "}
        <Choose
          name="setting"
          label="How the blocks lie"
          value={point ? "on_point" : "straight"}
          among={[["straight", "straight"], ["on_point", "on point"]]}
          onChoose={(setting) =>
            change(lie(now().doc, setting), setting === "on_point" ? "blocks on point" : "blocks straight")
          }
        />
      </p>
      <BlockSize blocks={blocks} point={point} fits={fits(doc.plan)} />
      <p class="line">
        <Field
          label="Kept free at the seams of the blocks"
          value={blocks.seam_gap}
          place={["blocks", "seam_gap"]}
          blank={written(number("1/4 in", unit)!, unit)}
          wide={3}
          onWrite={(text, merge) => edit(["seam_gap"], text || undefined, `free at their seams ${text || "as usual"}`, merge)}
        />{" "}
        <span>free at their seams</span>
      </p>
      {point ? <Triangles triangles={blocks.triangles} /> : <Sashing blocks={blocks} />}
      <p class="line">
        <button
          class="link"
          onClick={() => change(put(now().doc, ["blocks"], undefined), "blocks taken out")}
        >
          Take the blocks out
        </button>
      </p>
    </article>
  );
}

function Triangles({ triangles }: { triangles: Plan | undefined }) {
  return (
    <p class="line">
      <span>Triangles at the edge:</span>{" "}
      <Choose
        name="triangles"
        label="Triangles at the edge"
        value={triangles?.plain ? "plain" : "stitched"}
        among={[["stitched", "stitched"], ["plain", "left plain"]]}
        onChoose={(how) =>
          edit(["triangles"], how === "plain" ? { plain: true } : undefined, how === "plain" ? "triangles plain" : "triangles stitched")
        }
      />
    </p>
  );
}
