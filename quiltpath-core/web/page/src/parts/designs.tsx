// Part 2 of the worksheet: the designs.

import { useStore } from "../core/store";

export function Designs() {
  const { seen } = useStore();
  return (
    <section class="part" id="designs" aria-labelledby="designs-name">
      <header>
        <b>2</b>
        <h2 id="designs-name">The designs</h2>
      </header>
      <p>{seen ? "" : ""}</p>
    </section>
  );
}
