// Part 4 of the worksheet: at the frame, pass by pass.

import { useMemo, useState } from "preact/hooks";
import { useFrame } from "../core/frame";
import { useStore } from "../core/store";
import { Passes } from "./frame/passes";
import { Pass } from "./frame/pass";
import { Awake } from "./frame/awake";

export function Frame() {
  const { timed, said: wrong } = useStore("timed", "said");
  const { frame, said } = useFrame();
  const [open, setOpen] = useState(1);
  const pass = frame?.passes[Math.min(open, frame.passes.length) - 1];
  // A key in part 1 draws nothing anew here before its passes are there.
  const passes = useMemo(
    () =>
      frame && !wrong && (
        <>
          <Passes frame={frame} open={pass?.number ?? 1} onOpen={setOpen} />
          {pass ? (
            <Pass key={pass.number} frame={frame} pass={pass} last={pass.number === frame.passes.length} />
          ) : (
            <p>All of it is stitched. Nothing is left for the machine.</p>
          )}
        </>
      ),
    [frame, pass, Boolean(wrong)],
  );
  return (
    <section class="part at-frame" id="frame" aria-labelledby="frame-name">
      <header>
        <b>4</b>
        <h2 id="frame-name">At the frame</h2>
        <p class="help">
          Take this page to the frame on a tablet, or print it. It works without a network and keeps your place.
        </p>
        <Awake />
      </header>
      <div class="frame-of">
        {wrong && <p class="help">The passes come when the plan can be stitched.</p>}
        {!wrong && !timed && !frame && <p class="help">The passes are being put in order …</p>}
        {said && <p role="status">{said.message}</p>}
        {passes}
      </div>
    </section>
  );
}
