// The outline with its measures on the drawing, to be written and to be dragged.

import { useRef } from "preact/hooks";
import { type Plan, put } from "../../core/document";
import { type Unit, number, snapped, step, written } from "../../core/lengths";
import { change, now, takeBack } from "../../core/store";
import { handle } from "../../drag";
import { Field } from "../../field";
import { Set } from "../../set";
import { blocksPath } from "./blocks-drawn";
import { Corners } from "./corners";
import { boxOf, innerBox, innerSeam } from "./inner";
import { type Measure, type Measures, SAID, keyOf, measures, quiltOf } from "./measures";
import { Round } from "./round";
import { seamHandles } from "./seams";
import { rounded, shapeOf, unitOf } from "./shape";
import { Shaped } from "./shaped";

function write(measure: Measure, text: string, merge: boolean) {
  // A step goes from what stood there before the first key: a number that is equal to the one across
  // from it on its way, as 64 of 64 1/4 may be, ties neither to the other.
  const { quilt } = ((merge && now().past.at(-1)?.doc) || now().doc).plan;
  const before = measures(quilt);
  const name = `${SAID[measure].toLowerCase()}, ${before[measure] || "blank"} to ${text || "blank"}`;
  change(put(now().doc, ["quilt"], quiltOf({ ...before, [measure]: text }, quilt)), name, merge);
}

/** A dimension line with its number on it. */
function Dimension({ own, measure, quilt, blank }: { own: Measures; measure: Measure; quilt: Plan; blank?: string }) {
  const upright = measure === "left" || measure === "right";
  return (
    <div class={`dimension ${measure}${upright ? " upright" : ""}`}>
      <span class="arm" />
      <Field
        label={SAID[measure]}
        value={own[measure]}
        place={["quilt", keyOf(quilt, measure)]}
        {...(blank && { blank })}
        wide={5}
        onWrite={(text, merge) => write(measure, text, merge)}
      />
      <span class="arm" />
    </div>
  );
}

export function Outline({ quilt }: { quilt: Plan }) {
  const shape = shapeOf(quilt);
  return (
    <figure class="outline" role="group" aria-label="Measures of the quilt">
      {shape === "corners" && <Corners corners={quilt.corners} />}
      {shape === "sides" && <Sides quilt={quilt} />}
      {(shape === "circle" || shape === "ellipse") && <Round quilt={quilt} />}
      <Shaped quilt={quilt} />
    </figure>
  );
}

/** The six measures of four sides on their drawing. */
function Sides({ quilt }: { quilt: Plan }) {
  const { plan } = now().doc;
  const unit = unitOf(plan);
  const own = measures(quilt);
  const [wide, high] = boxOf(quilt, unit);
  const svg = useRef<SVGSVGElement>(null);
  const perPixel = () => wide / (svg.current?.getBoundingClientRect().width || 1);
  const edge = rounded([[0, 0], [wide, 0], [wide, high], [0, high]], number(quilt.rounding, unit) ?? 0);
  const seam = innerSeam(plan, wide, high, unit);
  /** Writes what a handle moved, in steps, from where the measures were as it was taken. */
  let start = own;
  const moved = (of: Partial<Record<Measure, number>>, merge: boolean) => {
    if (!merge) start = measures(now().doc.plan.quilt);
    const next = { ...start };
    const names: string[] = [];
    for (const [key, by] of Object.entries(of) as [Measure, number][]) {
      const given = next[key] || { right: start.left, bottom: start.top }[key as string] || String(Math.hypot(wide, high));
      const value = number(given, unit);
      if (value === null) continue;
      next[key] = written(snapped(Math.max(step(unit), value + by), unit), unit);
      names.push(`${SAID[key].toLowerCase()}, ${start[key] || "blank"} to ${next[key]}`);
    }
    if (names.length) change(put(now().doc, ["quilt"], quiltOf(next, now().doc.plan.quilt)), names.join("; "), merge);
  };
  const square = "width" in quilt || "height" in quilt;
  const along = (which: (right: number, down: number) => Partial<Record<Measure, number>>, label: string) =>
    handle({
      label,
      onMove: (right, down, merge) => moved(which(right * perPixel(), down * perPixel()), merge),
      onStep: (right, down, large) => {
        const by = large ? (unit === "mm" ? 10 : 1) : step(unit);
        moved(which(right * by, down * by), false);
      },
      onDrop: takeBack,
    });
  const diagonal = (key: Measure, x: number, y: number) => (right: number, down: number) => ({
    [key]: (right * x * wide + down * y * high) / Math.hypot(wide, high),
  });
  const corner = (x: number, y: number) =>
    square
      ? (right: number, down: number) => ({ top: right * x, left: down * y })
      : diagonal(x === y ? "falling" : "rising", x, y);
  const corners: [number, number, string][] = [
    [-1, -1, "Top left corner"],
    [1, -1, "Top right corner"],
    [1, 1, "Bottom right corner"],
    [-1, 1, "Bottom left corner"],
  ];
  return (
    <div class="measures">
      <Dimension own={own} measure="top" quilt={quilt} />
      <Dimension own={own} measure="left" quilt={quilt} />
      <div class="cloth-of">
        <svg ref={svg} viewBox={`0 0 ${wide} ${high}`} style={{ "--px": wide / 400 }} aria-hidden="true">
          <path class="border" d={edge} />
          <path class="cloth" d={seam} />
          <path class="seam" d={edge + seam} />
          <path class="blocks-of" d={blocksPath(plan, innerBox(plan, wide, high, unit), unit)} />
          <path class="travel" d={`M0 0L${wide} ${high}M${wide} 0L0 ${high}`} />
        </svg>
        {(["falling", "rising"] as const).map((measure) => (
          <span class={`across ${measure}`} key={measure}>
            <Field
              label={SAID[measure]}
              value={own[measure]}
              place={["quilt", measure]}
              blank="diagonal"
              wide={6}
              onWrite={(text, merge) => write(measure, text, merge)}
            />
          </span>
        ))}
        {corners.map(([x, y, label]) => (
          <i
            key={label}
            class="handle"
            style={{ left: x < 0 ? 0 : "100%", top: y < 0 ? 0 : "100%" }}
            {...along(corner(x, y), `${label}, drag or use the arrow keys`)}
          />
        ))}
        {!square &&
          (["top", "right", "bottom", "left"] as const).map((side) => (
            <i
              key={side}
              class={`handle side ${side}`}
              {...along(
                (right, down) => ({ [side]: side === "top" || side === "bottom" ? right : down }),
                `${SAID[side]}, drag or use the arrow keys`,
              )}
            />
          ))}
        {seamHandles(unit, wide, high, perPixel).map(({ key, style, attributes, flat }) => (
          <i key={key} class={`handle seam-of${flat ? " flat" : ""}`} style={style} {...attributes} />
        ))}
        <p class="square">{square && <Square wide={wide} high={high} unit={unit} />}</p>
      </div>
      <Dimension own={own} measure="right" quilt={quilt} blank="as left" />
      <Dimension own={own} measure="bottom" quilt={quilt} blank="as top" />
    </div>
  );
}

function Square({ wide, high, unit }: { wide: number; high: number; unit: Unit }) {
  return (
    <>
      Square, if both diagonals are <Set text={written(Math.hypot(wide, high), unit)} />
    </>
  );
}
