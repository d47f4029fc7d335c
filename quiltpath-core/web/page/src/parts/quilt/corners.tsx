// An outline measured by its corners: their places in a list, and on a drawing to be dragged.

import { useRef } from "preact/hooks";
import { put } from "../../core/document";
import { type Unit, number, signed, signedText, step } from "../../core/lengths";
import { change, now, takeBack } from "../../core/store";
import { handle } from "../../drag";
import { Field } from "../../field";
import { rounded } from "./shape";

type Corner = [unknown, unknown];

/** The corners of a quilt with four right angles. */
export function cornersOf(wide: string, high: string): [string, string][] {
  return [["0", "0"], [wide, "0"], [wide, high], ["0", high]];
}

function set(index: number, to: Corner, name: string, merge: boolean) {
  change(put(now().doc, ["quilt", "corners", index], to), name, merge);
}

export function Corners({ corners }: { corners: Corner[] }) {
  const unit = (now().doc.plan.unit ?? "in") as Unit;
  const svg = useRef<SVGSVGElement>(null);
  const places = corners.map(([x, y]) => [signed(x, unit) ?? 0, signed(y, unit) ?? 0] as const);
  const [xs, ys] = [places.map(([x]) => x), places.map(([, y]) => y)];
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  const [wide, high] = [Math.max(...xs) - left || 1, Math.max(...ys) - top || 1];
  const edge = rounded(places, number(now().doc.plan.quilt.rounding, unit) ?? 0);
  const perPixel = () => wide / (svg.current?.getBoundingClientRect().width || 1);
  const name = (index: number) => `corner ${index + 1}`;
  const add = () => {
    const [a, b] = [places.at(-1)!, places[0]!];
    const between: Corner = [signedText((a[0] + b[0]) / 2 - 0.02 * wide, unit), signedText((a[1] + b[1]) / 2, unit)];
    change(put(now().doc, ["quilt", "corners"], [...corners, between]), "one corner more");
  };
  const remove = (index: number) =>
    change(put(now().doc, ["quilt", "corners"], corners.filter((_, at) => at !== index)), `${name(index)} taken out`);
  return (
    <>
      <div class="cloth-of free">
        <svg ref={svg} viewBox={`${left} ${top} ${wide} ${high}`} style={{ "--px": wide / 400 }} aria-hidden="true">
          <path class="border" d={edge} />
          <path class="seam" d={edge} />
        </svg>
        {places.map(([x, y], index) => {
          let start: readonly [number, number] = [x, y];
          const to = (right: number, down: number, merge: boolean) => {
            if (!merge) start = [x, y];
            const next: Corner = [signedText(start[0] + right, unit), signedText(start[1] + down, unit)];
            set(index, next, `${name(index)} to ${next.join(", ")}`, merge);
          };
          return (
            <i
              key={index}
              class="handle"
              style={{ left: `${(100 * (x - left)) / wide}%`, top: `${(100 * (y - top)) / high}%` }}
              {...handle({
                label: `${name(index)}, drag or use the arrow keys`,
                onMove: (right, down, merge) => to(right * perPixel(), down * perPixel(), merge),
                onStep: (right, down, large) => {
                  const by = large ? (unit === "mm" ? 10 : 1) : step(unit);
                  to(right * by, down * by, false);
                },
                onDrop: takeBack,
              })}
            />
          );
        })}
      </div>
      <ol class="corners">
        {corners.map((corner, index) => (
          <li key={index}>
            <b>{index + 1}</b>
            {["across", "down"].map((way, axis) => (
              <span key={way}>
                <Field
                  label={`${name(index)}, ${way}`}
                  value={corner[axis]}
                  place={["quilt", "corners", index, axis]}
                  wide={5}
                  onWrite={(own, merge) => {
                    const next: Corner = [...(now().doc.plan.quilt.corners[index] as Corner)];
                    next[axis] = own;
                    set(index, next, `${name(index)}, ${way} to ${own}`, merge);
                  }}
                />{" "}
                <small>{way}</small>
              </span>
            ))}
            {corners.length > 3 && (
              <button class="link" onClick={() => remove(index)} aria-label={`Take out ${name(index)}`}>
                Take out
              </button>
            )}
          </li>
        ))}
      </ol>
      {corners.length < 12 && (
        <button class="link" onClick={add}>
          Add a corner
        </button>
      )}
    </>
  );
}
