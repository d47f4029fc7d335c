// The drawings of all borders as the core sees them, asked for anew only when something about them
// has changed.

import type { DrawingSeen } from "quiltpath";
import { useEffect, useRef, useState } from "preact/hooks";
import { client, useStore } from "../../core/store";
import type { Said } from "../../core/protocol";
import type { BorderKeys, Role, Shown } from "./keys";

/** What there is of each drawing, by border and role. */
export function useShown(borders: BorderKeys[]): (border: number, role: Role) => Shown {
  const { doc, busy } = useStore();
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
  const lastGood = (place: string, own: { motif?: string; start?: unknown; end?: unknown }) => {
    const before = last.current.get(place);
    const moved = own.start !== undefined || own.end !== undefined;
    return moved && before?.content === content(own.motif) ? { seen: before.seen } : {};
  };

  useEffect(() => {
    // The worker has the newest plan only when it is done with it.
    if (busy) return;
    borders.forEach((border, at) => {
      for (const role of ["corner", "side"] as const) {
        const place = `${at} ${role}`;
        const own = border[role];
        const key = JSON.stringify([doc.plan["unit"], own, content(own.motif)]);
        if (asked.current.get(place) === key) continue;
        asked.current.set(place, key);
        const show = (now: Shown) => {
          if (asked.current.get(place) !== key) return;
          setShown((before) => new Map(before).set(place, now));
        };
        client
          .ask<DrawingSeen | null>("readDrawing", at, role)
          .then((seen) => {
            if (seen) last.current.set(place, { content: content(own.motif), seen });
            show(seen && { seen });
          })
          .catch((refused: Said) => {
            // A worker that gave way answers nothing: ask the next one.
            if (refused.kind === "other") asked.current.delete(place);
            else show({ refused, ...lastGood(place, own) });
          });
      }
    });
  });
  return (border, role) => shown.get(`${border} ${role}`) ?? null;
}
