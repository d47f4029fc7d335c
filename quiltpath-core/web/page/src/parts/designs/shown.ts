// The drawings of the plan as the core sees them, asked for anew only when something about them has
// changed.

import type { DrawingSeen } from "quiltpath";
import { useEffect, useRef, useState } from "preact/hooks";
import { type Plan, at as valueAt } from "../../core/document";
import { number } from "../../core/lengths";
import { client, useStore } from "../../core/store";
import type { Said } from "../../core/protocol";
import { blockSize } from "../quilt/blocks-drawn";
import { unitOf } from "../quilt/shape";
import { keysAt, type End, type Shown } from "./keys";
import { CORNERSTONES, SASHES, isCentre, keyOf, type Place } from "./places";

interface Own {
  motif?: string;
  start?: End;
  end?: End;
}

/** What there is of each drawing, by its place. */
export function useShown(places: Place[]): (place: Place) => Shown {
  const { doc, busy } = useStore("doc", "busy");
  const [shown, setShown] = useState(new Map<string, Shown>());
  const asked = useRef(new Map<string, string>());
  const last = useRef(new Map<string, { content: number; seen: DrawingSeen }>());
  const numbers = useRef(new WeakMap<Uint8Array, number>());
  const count = useRef(0);

  /** A number for the content of a drawing. */
  const content = (name: string | undefined) => {
    const bytes = name === undefined ? undefined : doc.drawings.get(name);
    if (!bytes) return 0;
    const known = numbers.current.get(bytes);
    if (known !== undefined) return known;
    count.current += 1;
    numbers.current.set(bytes, count.current);
    return count.current;
  };

  /** The last good picture of a drawing whose ends she moves, so that she can go on. */
  const lastGood = (at: string, own: Own) => {
    const before = last.current.get(at);
    const moved = own.start !== undefined || own.end !== undefined;
    return moved && before?.content === content(own.motif) ? { seen: before.seen } : {};
  };

  useEffect(() => {
    // The worker has the newest plan only when it is done with it.
    if (busy) return;
    for (const place of places) {
      const at = keyOf(place);
      const own = keysAt(doc.plan, place);
      const key = JSON.stringify([doc.plan["unit"], own, content(own.motif)]);
      if (asked.current.get(at) === key) continue;
      asked.current.set(at, key);
      const show = (now: Shown) => {
        if (asked.current.get(at) !== key) return;
        setShown((before) => new Map(before).set(at, now));
      };
      read(doc.plan, place, own, own.motif === undefined ? undefined : doc.drawings.get(own.motif))
        .then((seen) => {
          if (seen) last.current.set(at, { content: content(own.motif), seen });
          show(seen && { seen });
        })
        .catch((refused: Said) => {
          // A worker that gave way answers nothing: ask the next one.
          if (refused.kind === "other") asked.current.delete(at);
          else show({ refused, ...lastGood(at, own) });
        });
    }
  });
  return (place) => shown.get(keyOf(place)) ?? null;
}

/** Asks the core for a drawing as its place takes it; null where there is none yet. */
async function read(plan: Plan, place: Place, own: Own, bytes: Uint8Array | undefined): Promise<DrawingSeen | null> {
  if (place.border !== null && !isCentre(place)) return client.ask<DrawingSeen | null>("readDrawing", place.border, place.role);
  if (!own.motif || !bytes) return null;
  const alone = JSON.stringify(asBorder(plan, place, own));
  const seen = await client.ask<DrawingSeen | null>("readAlone", alone, own.motif, bytes, place.role);
  // Where the line of a design that stands by itself starts and ends is not for the plan to say.
  return seen && place.role === "corner" ? { ...seen, places: null } : seen;
}

/** A plan with one border that takes a drawing as its place does: the middle of sides as their
 * repeats, within the borders sashes as sides do, all others as a block in a corner. */
function asBorder(plan: Plan, place: Place, own: Own): Plan {
  const unit = unitOf(plan);
  if (place.border !== null) {
    const { width, seam_gap, edge_gap } = plan["borders"][place.border];
    const side = { ...(valueAt(plan, place.path) as Plan), motif: own.motif };
    return { unit, quilt: plan["quilt"], borders: [{ width, seam_gap, edge_gap, side }] };
  }
  const gap = number(plan.blocks?.seam_gap, unit) ?? number("1/4 in", unit)!;
  const inSash = place === SASHES || place === CORNERSTONES;
  const sash = number(plan.blocks?.sashing?.width, unit);
  const least = 4 * gap;
  const width = Math.max(least, (inSash ? sash : blockSize(plan, unit)) ?? least);
  const { stitched: _, repeats: __, ...keys } = { ...(valueAt(plan, place.path) as Plan), ...own } as Plan;
  // A cornerstone is one line: no saving is worth a thread cut.
  const uncut = place === CORNERSTONES ? { cut: "1000 m" } : {};
  const drawn = place.role === "side" ? { side: keys } : { corner: { ...keys, ...uncut, style: "block" } };
  return {
    unit,
    quilt: { width: 6 * width, height: 6 * width },
    borders: [{ width, seam_gap: gap, edge_gap: gap, ...drawn }],
  };
}
