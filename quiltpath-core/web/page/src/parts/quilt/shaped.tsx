// How the quilt is measured, to choose; the radius to which its corners are rounded; its scallops.

import type { Plan } from "../../core/document";
import { change, now } from "../../core/store";
import { Choose, Field } from "../../field";
import { cornersOf } from "./corners";
import { boxOf } from "./inner";
import { type Shape, before, edgeOf, shapeOf, unitOf, withQuilt } from "./shape";
import { number, written } from "../../core/lengths";

const SHAPES: [Shape, string, string][] = [
  ["sides", "its four sides", "measured by its sides"],
  ["corners", "its corners", "measured by its corners"],
  ["circle", "its diameter: a circle", "a circle"],
  ["ellipse", "width and height: an oval", "an oval"],
];

/** The quilt in another shape, as large as it was. */
function inShape(quilt: Plan, shape: Shape): Plan {
  const unit = unitOf(now().doc.plan);
  const [wide, high] = boxOf(quilt, unit).map((length) => written(length, unit)) as [string, string];
  switch (shape) {
    case "sides":
      return { width: wide, height: high, ...edgeOf(quilt) };
    case "corners":
      return { corners: cornersOf(wide, high), ...edgeOf(quilt) };
    case "circle":
      return { circle: { diameter: wide }, ...edgeOf(quilt, true) };
    case "ellipse":
      return { ellipse: { width: wide, height: high }, ...edgeOf(quilt, true) };
  }
}

/** How deep scallops are that nothing is said of: our own choice. */
const USUAL_DEPTH = "1 in";

function Scallops({ scallops }: { scallops: Plan | undefined }) {
  const put = (next: Plan | undefined, name: string, merge: boolean) => {
    const doc = before(merge);
    const { scallops: _, ...plain } = doc.plan.quilt as Plan;
    change(withQuilt(doc, next ? { ...plain, scallops: next } : plain), name, merge);
  };
  const unit = unitOf(now().doc.plan);
  return (
    <p class="line">
      <span>Scallops along the edge</span>{" "}
      <Field
        label="Number of scallops"
        value={scallops?.count}
        place={["quilt", "scallops", "count"]}
        blank="none"
        wide={4}
        count
        onWrite={(text, merge) => {
          const count = /^\d+$/.test(text.trim()) ? Number(text) : text;
          const depth = scallops?.depth ?? written(number(USUAL_DEPTH, unit)!, unit);
          put(text ? { count, depth } : undefined, `scallops, ${text || "none"}`, merge);
        }}
      />
      {scallops && (
        <>
          {" "}
          <span>each so deep</span>{" "}
          <Field
            label="Depth of the scallops"
            value={scallops.depth}
            place={["quilt", "scallops", "depth"]}
            wide={4}
            onWrite={(text, merge) => put({ ...scallops, depth: text }, `depth of the scallops, ${text || "blank"}`, merge)}
          />
        </>
      )}
    </p>
  );
}

export function Shaped({ quilt }: { quilt: Plan }) {
  const shape = shapeOf(quilt);
  const round = shape === "circle" || shape === "ellipse";
  const choose = (next: Shape) => {
    if (next === shape) return;
    change(withQuilt(now().doc, inShape(quilt, next)), SHAPES.find(([own]) => own === next)![2]);
  };
  const write = (text: string, merge: boolean) => {
    const doc = before(merge);
    const { rounding: _, scallops, ...sharp } = doc.plan.quilt as Plan;
    const next = { ...sharp, ...edgeOf({ rounding: text || undefined, scallops }) };
    change(withQuilt(doc, next), `corners rounded, ${text || "sharp"}`, merge);
  };
  return (
    <>
      <p class="line">
        <span>Measured by</span>{" "}
        <Choose
          name="shape"
          label="How the quilt is measured"
          value={shape}
          among={SHAPES.map(([own, words]) => [own, words])}
          onChoose={choose}
        />
      </p>
      {(!round || quilt.rounding !== undefined) && (
        <p class="line">
          <span>Corners rounded to a radius of</span>{" "}
          <Field
            label="Radius of the rounded corners"
            value={quilt.rounding}
            place={["quilt", "rounding"]}
            blank="sharp"
            wide={4}
            onWrite={write}
          />
        </p>
      )}
      {(round || quilt.rounding !== undefined) && <Scallops scallops={quilt.scallops} />}
    </>
  );
}
