// Part 4 of the worksheet: at the frame.

import { useStore } from "../core/store";

export function Frame() {
  const { seen } = useStore();
  return (
    <section class="part" id="frame" aria-labelledby="frame-name">
      <header>
        <b>4</b>
        <h2 id="frame-name">At the frame</h2>
      </header>
      <p>{seen ? "" : ""}</p>
    </section>
  );
}
