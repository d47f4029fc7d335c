// The design for the corners: its style, its drawing, its legs, which way it goes round.

import type { LittleDrawing } from "quiltpath";
import { Fragment } from "preact";
import { make } from "../../core/make";
import { at as valueAt, put, type Doc } from "../../core/document";
import type { Said } from "../../core/protocol";
import { Says } from "../../says";
import { Choose, Field } from "../../field";
import { Pick } from "../pick";
import { Card } from "./card";
import { Ends } from "./ends";
import { Item } from "./item";
import { edit, type BorderKeys, type CornerKeys, type Shown } from "./keys";
import { cornersOf } from "./places";

/** The styles: the word of the plan, what it is called, and what it does. */
const STYLES = [
  ["leg", "an L", "An L turns the corner, with the border between."],
  ["block", "a block", "A design by itself in each corner square."],
  ["mitred", "mitred", "The repeat itself, cut on the diagonal and mirrored."],
  ["bent", "bent", "The repeat carried round the corner on an arc."],
  ["butted", "butted", "Two sides run to the edge, two stop between them."],
  ["open", "left open", "The corner squares stay empty."],
] as const;

/** The drawing that the corners of a border had last, for when they take one again. */
const before = new Map<number, string>();

function withDrawing(doc: Doc, border: number, style: string): Doc {
  const name = before.get(border);
  const draws = style === "leg" || style === "block";
  const missing = valueAt(doc.plan, ["borders", border, "corner", "motif"]) === undefined;
  if (!draws || !missing || name === undefined || !doc.drawings.has(name)) return doc;
  return put(doc, ["borders", border, "corner", "motif"], name);
}

interface Props {
  at: number;
  border: BorderKeys;
  shown: Shown;
  take: (file: File) => Promise<string | null>;
}

export function CornerCard({ at, border, shown, take }: Props) {
  const corner = border.corner;
  const place = cornersOf(at);
  const draws = corner.style === "leg" || corner.style === "block";
  if (corner.motif !== undefined) before.set(at, corner.motif);
  const drawn = draws ? shown : null;
  const drawing = drawn && "seen" in drawn ? drawn.seen : null;
  const set: Set = (keys, name, merge) => edit(place, keys, name, merge);
  const style = STYLES.find(([word]) => word === corner.style);
  return (
    <Card
      place={place}
      draws={draws}
      name={draws ? corner.motif : undefined}
      shown={drawn}
      take={take}
      help={drawn && "refused" in drawn && <Help at={at} corner={corner} refused={drawn.refused} />}
    >
      <Item name="Style">
        <Choose
          name={`style-${at}`}
          label="Style of the corners"
          value={corner.style as (typeof STYLES)[number][0]}
          among={STYLES.map(([word, called]) => [word, called])}
          onChoose={(word) => {
            const called = STYLES.find(([style]) => style === word)?.[1];
            const again = (doc: Doc) => withDrawing(doc, at, word);
            make({ change: "style", border: at, style: word }, `corners ${called}`, false, again);
          }}
        />
        <p class="help">{style?.[2]}</p>
      </Item>
      {drawing && <Ends of={place} seen={drawing} own={corner} swaps={corner.style === "block"} />}
      {drawing?.legs && (
        <Item name="Legs">
          <Says text={drawing.legs} />
          <Legs at={at} corner={corner} set={set} />
        </Item>
      )}
      {corner.trim && (
        <Item name="Cut">
          Cut to an L, its legs{" "}
          <Field
            label="Depth of the legs that it is cut to, as drawn"
            value={corner.trim.leg_depth}
            place={["borders", at, "corner", "trim", "leg_depth"]}
            wide={5}
            onWrite={(leg_depth, merge) =>
              set({ trim: { ...corner.trim, leg_depth } }, "depth of the cut", merge)
            }
          />{" "}
          deep as drawn.{" "}
          <button class="link" onClick={() => set({ trim: undefined }, "not cut")}>
            Don't cut it
          </button>
          <Elbow at={at} corner={corner} set={set} />
        </Item>
      )}
      {drawing && (
        <Item name="One line">
          <Says text={drawing.one_line} />
        </Item>
      )}
      {draws && (
        <Item name="Way round">
          <div class="choose" role="radiogroup" aria-label="Way round">
            {(["mirrored", "turned"] as const).map((way) => (
              <Pick
                key={way}
                name={`way-${at}`}
                on={(corner.arrangement ?? "mirrored") === way}
                pick={() => set({ arrangement: way }, `corners ${way}`)}
                before={drawing && <Four little={drawing.little} way={way} />}
              >
                {way}
              </Pick>
            ))}
          </div>
        </Item>
      )}
      <Rest at={at} corner={corner} set={set} />
    </Card>
  );
}

/** Puts keys in place; undefined takes one out. */
type Set = (keys: { [K in keyof CornerKeys]?: CornerKeys[K] | undefined }, name: string, merge?: boolean) => void;

/** The depth of legs, where what was found is wrong. */
function Legs({ at, corner, set }: { at: number; corner: CornerKeys; set: Set }) {
  const leg = corner.leg;
  if (!leg) {
    return (
      <>
        {" "}
        <button class="link" onClick={() => set({ leg: {} }, "legs by hand")}>
          Say how deep
        </button>
      </>
    );
  }
  const keys = [
    ["horizontal_depth", "the level one"],
    ["vertical_depth", "the upright one"],
  ] as const;
  return (
    <p>
      {keys.map(([key, says]) => (
        <Fragment key={key}>
          <Field
            label={`Depth of ${says}, as drawn`}
            value={leg[key]}
            place={["borders", at, "corner", "leg", key]}
            blank="as found"
            wide={5}
            onWrite={(depth, merge) =>
              set({ leg: { ...leg, [key]: depth === "" ? undefined : depth } }, `legs, ${says}`, merge)
            }
          />{" "}
          {says}{" "}
        </Fragment>
      ))}
      <button class="link" onClick={() => set({ leg: undefined }, "legs as found")}>
        As found
      </button>
    </p>
  );
}

/** What may be done about a drawing that is no L. */
function Help({ at, corner, refused }: { at: number; corner: CornerKeys; refused: Said }) {
  if (corner.style !== "leg" || refused.kind !== "leg" || corner.trim) return null;
  return (
    <>
      <button
        class="link"
        onClick={() => make({ change: "style", border: at, style: "block" }, "corners a block")}
      >
        Use it as a block
      </button>{" "}
      or{" "}
      <button
        class="link"
        onClick={() => cut(at)}
      >
        cut it to an L
      </button>
      .
    </>
  );
}

/** Cuts the drawing to an L, which has its own legs and ends. */
function cut(at: number) {
  const keys = { trim: { leg_depth: 4 }, leg: undefined, start: undefined, end: undefined };
  edit(cornersOf(at), keys, "cut to an L");
}

/** In which corner of the drawing the legs meet. */
function Elbow({ at, corner, set }: { at: number; corner: CornerKeys; set: Set }) {
  const { trim } = corner;
  if (!trim) return null;
  return (
    <p>
      Its legs meet{" "}
      <Choose
        name={`elbow-${at}`}
        label="Where the legs meet"
        value={trim.elbow ?? "top_left"}
        among={["top_left", "top_right", "bottom_right", "bottom_left"].map((elbow) => [
          elbow,
          elbow.replace("_", " "),
        ])}
        onChoose={(elbow) => set({ trim: { ...trim, elbow } }, `legs meet ${elbow.replace("_", " ")}`)}
      />
    </p>
  );
}

/** What only some styles have. */
function Rest({ at, corner, set }: { at: number; corner: CornerKeys; set: Set }) {
  switch (corner.style) {
    case "block":
      return (
        <Item name="Lies">
          <Choose
            name={`point-${at}`}
            label="How the block lies"
            value={corner.on_point ? "point" : "straight"}
            among={[
              ["straight", "straight"],
              ["point", "on point"],
            ]}
            onChoose={(lies) =>
              set({ on_point: lies === "point" ? true : undefined }, `block ${lies}`)
            }
          />
        </Item>
      );
    case "butted":
      return (
        <Item name="Run through">
          <Choose
            name={`through-${at}`}
            label="Sides that run through"
            value={corner.through ?? "top_bottom"}
            among={[
              ["top_bottom", "top and bottom"],
              ["left_right", "left and right"],
            ]}
            onChoose={(through) => set({ through }, `${through.replace("_", " and ")} run through`)}
          />
        </Item>
      );
    case "mitred":
      return (
        <Item name="The turn">
          Rounded off over{" "}
          <Field
            label="Over how much of the line the turn is rounded off"
            value={corner.smooth}
            place={["borders", at, "corner", "smooth"]}
            blank="a point"
            wide={5}
            onWrite={(smooth, merge) =>
              set({ smooth: smooth === "" ? undefined : smooth }, "turn rounded off", merge)
            }
          />{" "}
          either side.
        </Item>
      );
    default:
      return null;
  }
}

/** Four corners in little, as they go round. */
function Four({ little, way }: { little: LittleDrawing; way: "mirrored" | "turned" }) {
  const side = 230;
  const places =
    way === "mirrored"
      ? ["", `matrix(-1 0 0 1 ${side} 0)`, `matrix(-1 0 0 -1 ${side} ${side})`, `matrix(1 0 0 -1 0 ${side})`]
      : ["", `matrix(0 1 -1 0 ${side} 0)`, `matrix(-1 0 0 -1 ${side} ${side})`, `matrix(0 -1 1 0 0 ${side})`];
  const [, x, y] = /^M(-?\d+) (-?\d+)/.exec(little.path) ?? [];
  return (
    <svg class="four" viewBox={`-12 -12 ${side + 24} ${side + 24}`} aria-hidden="true">
      {places.map((place) => (
        <g key={place} transform={place}>
          <path class="line corner" d={little.path} />
          <circle class="first" cx={x} cy={y} r="13" />
        </g>
      ))}
    </svg>
  );
}
