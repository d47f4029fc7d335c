// The worksheet: one sheet of paper in four parts.

import { render } from "preact";
import { openFile, start } from "./core/start";
import { useStore } from "./core/store";
import { Head } from "./head";
import { Designs } from "./parts/designs";
import { Frame } from "./parts/frame";
import { Quilt } from "./parts/quilt";
import { Result } from "./parts/result";

/** The parts, always the same: each is drawn anew by itself when what it shows has changed. */
const PARTS = (
  <>
    <Head />
    <Quilt />
    <Designs />
    <Result />
    <Frame />
    <footer>
      Cloth gives, and numbers are only as true as the measures. Measure each pass again where it will be stitched,
      and stay at the machine while it moves. Its manual comes first.
    </footer>
  </>
);

function Page() {
  const { busy } = useStore("busy");
  return (
    <main class="paper" aria-busy={busy}>
      {PARTS}
    </main>
  );
}

// A sheet may be dropped anywhere; drawings have places of their own.
document.addEventListener("dragover", (event) => event.preventDefault());
document.addEventListener("drop", (event) => {
  if (event.defaultPrevented) return;
  event.preventDefault();
  const file = event.dataTransfer?.files[0];
  if (file) void openFile(file);
});

const root = document.getElementById("sheet")!;
root.textContent = "";
render(<Page />, root);
void start();
