// The strips between blocks: whether there are some, how wide, and what is where they cross.

import { type Plan, put } from "../../core/document";
import { number, written } from "../../core/lengths";
import { change, now } from "../../core/store";
import { Choose, Field } from "../../field";
import { unitOf } from "./shape";

type Where = "none" | "between" | "round";

const WHERE: [Where, string, string][] = [
  ["none", "none", "no sashing"],
  ["between", "between the blocks", "sashing between the blocks"],
  ["round", "and round them", "sashing round the blocks, too"],
];

/** How wide sashes are that nothing is said of, in inches: common practice. */
const USUAL = "2 in";

/** The sashing that was taken out last, for when it is wanted again. */
let before: Plan | undefined;

function set(sashing: Plan | undefined, name: string, merge = false) {
  change(put(now().doc, ["blocks", "sashing"], sashing), name, merge);
}

export function Sashing({ blocks }: { blocks: Plan }) {
  const sashing = blocks.sashing as Plan | undefined;
  if (sashing) before = sashing;
  const unit = unitOf(now().doc.plan);
  const where: Where = !sashing ? "none" : sashing.outer ? "round" : "between";
  const choose = (next: Where) => {
    const name = WHERE.find(([own]) => own === next)![2];
    if (next === "none") return set(undefined, name);
    const { outer: _, ...rest } = sashing ?? before ?? { width: written(number(USUAL, unit)!, unit) };
    set({ ...rest, ...(next === "round" && { outer: true }) }, name);
  };
  const cross = (how: "stones" | "through") => {
    const { cornerstones: _, cornerstone, ...rest } = sashing!;
    // Sashes that run through have no cornerstones, and so no design for them.
    const next = how === "through" ? { ...rest, cornerstones: false } : { ...rest, ...(cornerstone && { cornerstone }) };
    set(next, how === "through" ? "sashes run through" : "cornerstones where sashes cross");
  };
  return (
    <>
      <p class="line">
        <span>Sashing:</span>{" "}
        <Choose
          name="sashing"
          label="Sashing"
          value={where}
          among={WHERE.map(([own, words]) => [own, words])}
          onChoose={choose}
        />
      </p>
      {sashing && (
        <>
          <p class="line">
            <Field
              label="Width of the sashes"
              value={sashing.width}
              place={["blocks", "sashing", "width"]}
              wide={4}
              onWrite={(text, merge) => set({ ...now().doc.plan.blocks.sashing, width: text }, `sashes, width ${text || "blank"}`, merge)}
            />{" "}
            <span>wide, seam to seam</span>
          </p>
          <p class="line">
            <span>Where they cross:</span>{" "}
            <Choose
              name="cornerstones"
              label="Where sashes cross"
              value={sashing.cornerstones === false ? "through" : "stones"}
              among={[["stones", "cornerstones"], ["through", "they run through"]]}
              onChoose={cross}
            />
          </p>
        </>
      )}
    </>
  );
}
