// The borders from the outermost to the innermost: widths and what is kept free, on the cloth
// enlarged.

import { type Plan, put } from "../../core/document";
import { change, now, useStore } from "../../core/store";
import { Choose, Field } from "../../field";
import { Set } from "../../set";
import { hasFourSides, runsRound } from "./shape";

const SIDES = ["top", "right", "bottom", "left"] as const;

/** A border like the one outside it, without its designs; one that runs round has no corner. */
function another(before: Plan | undefined, round: boolean): Plan {
  return {
    width: before ? "4" : "6",
    ...(!round && { corner: { style: "open" } }),
    side: { motif: before?.side?.motif ?? "" },
  };
}

function nameOf(border: Plan, index: number, count: number): string {
  return border.name ?? (count === 1 ? "border" : `border ${index + 1}`);
}

function Strip({ border, index, count }: { border: Plan; index: number; count: number }) {
  const { seen, doc } = useStore("seen", "doc");
  const own = seen?.borders[index];
  const name = nameOf(border, index, count);
  const each = border.width !== null && typeof border.width === "object";
  const write = (key: string, said: string) => (text: string, merge: boolean) =>
    change(put(now().doc, ["borders", index, key], text || undefined), `${name}, ${said} ${text || "as usual"}`, merge);
  const alike = (value: "alike" | "each") => {
    const width = border.width;
    const next =
      value === "each"
        ? Object.fromEntries(SIDES.map((side) => [side, each ? (width as Plan)[side] : width]))
        : ((width as Plan).top ?? Object.values(width as Plan)[0]);
    change(put(doc, ["borders", index, "width"], next), `${name}, sides ${value === "each" ? "each their own" : "alike"}`);
  };
  const remove = () =>
    change(put(doc, ["borders"], (doc.plan.borders as Plan[]).filter((_, at) => at !== index)), `${name} taken out`);
  const four = hasFourSides(doc.plan, index);
  return (
    <article class="strip-of">
      <h3>
        <Field
          label={`Name of border ${index + 1}`}
          value={border.name ?? ""}
          blank={`${name}, from ${index ? "the seam outside it" : "raw edge"} to seam`}
          wide={22}
          length={false}
          onWrite={(text, merge) =>
            change(put(now().doc, ["borders", index, "name"], text || undefined), `name of border ${index + 1}`, merge)
          }
        />
      </h3>
      <div class="enlarged" role="group" aria-label={`Measures of ${name}`}>
        {each ? (
          <div class="widths">
            {SIDES.map((side) => (
              <span key={side}>
                <small>{side}</small>
                <Field
                  label={`Width of ${name}, ${side}`}
                  value={(border.width as Plan)[side]}
                  place={["borders", index, "width", side]}
                  wide={3}
                  onWrite={(text, merge) =>
                    change(put(now().doc, ["borders", index, "width", side], text), `${name}, ${side} ${text}`, merge)
                  }
                />
              </span>
            ))}
          </div>
        ) : (
          <div class="dimension upright">
            <span class="arm" />
            <Field
              label={`Width of ${name}`}
              value={border.width}
              place={["borders", index, "width"]}
              wide={3}
              onWrite={(text, merge) =>
                change(put(now().doc, ["borders", index, "width"], text), `${name}, width ${text}`, merge)
              }
            />
            <span class="arm" />
          </div>
        )}
        <svg viewBox="0 0 90 100" preserveAspectRatio="none" style={{ "--px": 0.5 }} aria-hidden="true">
          <path class="border" d="M0 0H90V100H0Z" />
          <path class="seam" d="M0 0H90M0 100H90" />
          <path class="band" d={band(own)} />
        </svg>
        <ul>
          <li>
            <Field
              label={`Kept free at the edge of ${name}`}
              value={border.edge_gap}
              place={["borders", index, "edge_gap"]}
              blank={own ? plain(own.edge_gap.says) : index ? "1/4" : "1/2"}
              wide={3}
              onWrite={write("edge_gap", "free at the edge")}
            />
            <span>{index ? "free at the seam outside" : "free at the edge, for the binding"}</span>
          </li>
          <li>
            <span class="worked">{own ? <Set text={plain(own.depth.says)} /> : "–"}</span>
            <span>band to stitch in</span>
          </li>
          <li>
            <Field
              label={`Kept free at the seam of ${name}`}
              value={border.seam_gap}
              place={["borders", index, "seam_gap"]}
              blank={own ? plain(own.seam_gap.says) : "1/4"}
              wide={3}
              onWrite={write("seam_gap", "free at the seam")}
            />
            <span>free at the seam</span>
          </li>
        </ul>
      </div>
      <p class="line">
        {four && (
          <>
            <span>All four sides:</span>{" "}
            <Choose
              name={`alike-${index}`}
              label={`Widths of ${name}`}
              value={each ? "each" : "alike"}
              among={[["alike", "alike"], ["each", "each its own"]]}
              onChoose={alike}
            />
          </>
        )}
        {(count > 1 || doc.plan.blocks) && (
          <button class="link" onClick={remove}>
            Take this border out
          </button>
        )}
      </p>
    </article>
  );
}

/** A length without its unit, as fields have it. */
function plain(readable: string): string {
  return readable.replace(/\s*(in|cm|mm)$/, "");
}

/** The band between the gaps, as a path in a border 100 wide. */
function band(own: { width: { value: number }; edge_gap: { value: number }; seam_gap: { value: number } } | undefined) {
  if (!own || !(own.width.value > 0)) return "M0 8H90M0 95H90";
  const edge = (100 * own.edge_gap.value) / own.width.value;
  const seam = 100 - (100 * own.seam_gap.value) / own.width.value;
  return `M0 ${edge.toFixed(2)}H90M0 ${seam.toFixed(2)}H90`;
}

export function Borders() {
  const { doc } = useStore("doc");
  const borders = (doc.plan.borders ?? []) as Plan[];
  const add = () =>
    change(
      put(doc, ["borders"], [...borders, another(borders.at(-1), runsRound(doc.plan, borders.length))]),
      borders.length ? "one border more" : "a border",
    );
  return (
    <>
      {borders.map((border, index) => (
        <Strip key={index} border={border} index={index} count={borders.length} />
      ))}
      <p>
        <button class="link" onClick={add}>
          {borders.length ? "Add a border inside" : "Add a border"}
        </button>
      </p>
    </>
  );
}
