// A round or an oval cloth: its measures on the drawing, to be written and to be dragged.

import { useRef } from "preact/hooks";
import { type Plan, put } from "../../core/document";
import { snapped, step, written } from "../../core/lengths";
import { change, now, takeBack } from "../../core/store";
import { handle } from "../../drag";
import { Field } from "../../field";
import { boxOf, innerSeam } from "./inner";
import { seamHandles } from "./seams";
import { oval, unitOf } from "./shape";

interface Measure {
  path: string[];
  said: string;
  at: "top" | "left";
}

const CIRCLE: Measure[] = [{ path: ["circle", "diameter"], said: "Diameter", at: "top" }];
const ELLIPSE: Measure[] = [
  { path: ["ellipse", "width"], said: "Width of the oval", at: "top" },
  { path: ["ellipse", "height"], said: "Height of the oval", at: "left" },
];

function write({ path, said }: Measure, text: string, merge: boolean) {
  change(put(now().doc, ["quilt", ...path], text), `${said.toLowerCase()}, ${text || "blank"}`, merge);
}

export function Round({ quilt }: { quilt: Plan }) {
  const { plan } = now().doc;
  const unit = unitOf(plan);
  const own = quilt.circle ? CIRCLE : ELLIPSE;
  const [wide, high] = boxOf(quilt, unit);
  const svg = useRef<SVGSVGElement>(null);
  const perPixel = () => wide / (svg.current?.getBoundingClientRect().width || 1);
  const edge = oval(0, 0, wide, high);
  const seam = innerSeam(plan, wide, high, unit);
  return (
    <div class="measures">
      {own.map((measure) => (
        <div key={measure.said} class={`dimension ${measure.at}${measure.at === "left" ? " upright" : ""}`}>
          <span class="arm" />
          <Field
            label={measure.said}
            value={quilt[measure.path[0]!][measure.path[1]!]}
            place={["quilt", ...measure.path]}
            wide={5}
            onWrite={(text, merge) => write(measure, text, merge)}
          />
          <span class="arm" />
        </div>
      ))}
      <div class="cloth-of">
        <svg ref={svg} viewBox={`0 0 ${wide} ${high}`} style={{ "--px": wide / 400 }} aria-hidden="true">
          <path class="border" d={edge} />
          <path class="cloth" d={seam} />
          <path class="seam" d={edge + seam} />
        </svg>
        {own.map((measure) => {
          const across = measure.at === "top";
          let start = across ? wide : high;
          const to = (by: number, merge: boolean) => {
            if (!merge) start = across ? wide : high;
            write(measure, written(snapped(Math.max(step(unit), start + by), unit), unit), merge);
          };
          return (
            <i
              key={measure.said}
              class="handle"
              style={across ? { left: "100%", top: "50%" } : { left: "50%", top: "100%" }}
              {...handle({
                label: `${measure.said}, drag or use the arrow keys`,
                onMove: (right, down, merge) => to((across ? right : down) * perPixel(), merge),
                onStep: (right, down, large) => to((across ? right : down) * (large ? (unit === "mm" ? 10 : 1) : step(unit)), false),
                onDrop: takeBack,
              })}
            />
          );
        })}
        {seamHandles(unit, wide, high, perPixel).map(({ key, style, attributes, flat }) => (
          <i key={key} class={`handle seam-of${flat ? " flat" : ""}`} style={style} {...attributes} />
        ))}
      </div>
    </div>
  );
}
