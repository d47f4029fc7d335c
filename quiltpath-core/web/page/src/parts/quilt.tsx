// Part 1 of the worksheet: the quilt.

import { useStore } from "../core/store";

export function Quilt() {
  const { seen } = useStore();
  return (
    <section class="part" id="quilt" aria-labelledby="quilt-name">
      <header>
        <b>1</b>
        <h2 id="quilt-name">The quilt</h2>
      </header>
      <p>{seen ? "" : ""}</p>
    </section>
  );
}
