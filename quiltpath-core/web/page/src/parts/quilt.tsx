// Part 1 of the worksheet: the quilt, its measures, its borders and its blocks.

import { useStore } from "../core/store";
import { Blocks } from "./quilt/blocks";
import { Borders } from "./quilt/borders";
import { Machine } from "./quilt/machine";
import { Outline } from "./quilt/outline";

export function Quilt() {
  const { doc } = useStore("doc");
  return (
    <section class="part" id="quilt" aria-labelledby="quilt-name">
      <header>
        <b>1</b>
        <h2 id="quilt-name">The quilt</h2>
        <p class="help">
          Lay it flat. Measure from raw edge to raw edge. Leave blank what is the same as across from it.
        </p>
      </header>
      <div class="measured">
        <Outline quilt={doc.plan.quilt ?? {}} />
        <div class="strips">
          <Borders />
          <Blocks />
          <Machine />
          <p class="help">
            Write a length as you say it: 64 1/4, 64.25 or 163.2 cm. Or drag an edge, a corner or the seam on the
            drawing.
          </p>
        </div>
      </div>
    </section>
  );
}
