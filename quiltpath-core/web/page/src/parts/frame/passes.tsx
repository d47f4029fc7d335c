// The passes in order, as small pictures; what is stitched is ticked.

import type { AtFrame, PassSeen } from "quiltpath";
import { useState } from "preact/hooks";
import { tick } from "../../core/frame";
import { say } from "../../core/store";
import { Markup } from "./markup";

/** Whether all of a pass is stitched. */
export function done(pass: PassSeen): boolean {
  return pass.runs.length > 0 && pass.runs.every((run) => run.stitched);
}

export function Passes({ frame, open, onOpen }: { frame: AtFrame; open: number; onOpen(pass: number): void }) {
  const [busy, setBusy] = useState(false);
  const set = (pass: PassSeen, stitched: boolean) => {
    const runs = pass.runs.filter((run) => run.stitched !== stitched).map((run) => run.number);
    setBusy(true);
    tick(pass.number, runs, stitched)
      .catch((said: { message?: string }) => say(said.message ?? "That could not be ticked."))
      .finally(() => setBusy(false));
  };
  return (
    <ol class="passes">
      {frame.passes.map((pass) => (
        <li key={pass.number} class={pass.number === open ? "open" : done(pass) ? "done" : ""}>
          <button class="pass-of" aria-pressed={pass.number === open} onClick={() => onOpen(pass.number)}>
            <Markup text={pass.small} hidden />
            <span>
              Pass {pass.number}
              {pass.number === open && <span class="unseen">, open</span>}
            </span>
          </button>
          <label class="ticked">
            <input
              type="checkbox"
              disabled={busy}
              checked={done(pass)}
              onChange={(event) => set(pass, event.currentTarget.checked)}
            />
            stitched<span class="unseen">, pass {pass.number}</span>
          </label>
        </li>
      ))}
    </ol>
  );
}
