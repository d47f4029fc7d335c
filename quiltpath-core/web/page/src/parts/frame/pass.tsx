// One pass: its caution, its window, what to do, readings, the pass as laid, bobbins, a thread that
// broke.

import type { AtFrame, LaidSeen, PassSeen } from "quiltpath";
import { useState } from "preact/hooks";
import { keepSteps, stepsOf } from "../../core/frame";
import { Markup } from "./markup";
import { Readings } from "./readings";
import { Laid } from "./laid";
import { Runs } from "./runs";
import { Broke } from "./broke";

export function Caution() {
  return (
    <p class="caution">
      <b>Needle up and hands clear before the machine moves.</b> Stay at it while it moves. The machine's manual comes
      first.
    </p>
  );
}

function Steps({ pass }: { pass: PassSeen }) {
  const [ticked, setTicked] = useState(() => stepsOf(pass.number));
  const set = (at: number, done: boolean) => {
    const next = pass.steps.map((_, index) => (index === at ? done : Boolean(ticked[index])));
    setTicked(next);
    keepSteps(pass.number, next);
  };
  return (
    <div class="steps-of">
      <h3>Step by step</h3>
      <ol class="steps">
        {pass.steps.map((step, index) => (
          <li key={step}>
            <label>
              <input
                type="checkbox"
                checked={Boolean(ticked[index])}
                onChange={(event) => set(index, event.currentTarget.checked)}
              />
              <span>{step}</span>
            </label>
          </li>
        ))}
      </ol>
    </div>
  );
}

export function Pass({ frame, pass, last }: { frame: AtFrame; pass: PassSeen; last: boolean }) {
  const [laid, setLaid] = useState<LaidSeen | null>(null);
  const stitches = pass.runs.reduce((sum, run) => sum + run.stitches, 0);
  const minutes = Math.max(1, Math.round(pass.minutes));
  return (
    <article aria-label={`Pass ${pass.number}`}>
      <h3 class="pass-name">
        Pass {pass.number}
        {last && frame.passes.length > 1 ? ", the last" : ""}{" "}
        <small>
          {pass.runs.length} {pass.runs.length === 1 ? "run" : "runs"}, {stitches.toLocaleString("en")} stitches, about{" "}
          {minutes} {minutes === 1 ? "minute" : "minutes"}
        </small>
      </h3>
      <Caution />
      <Markup class="window-of" text={pass.figure} />
      <div class="bench">
        <Steps pass={pass} />
        <Readings frame={frame} pass={pass} laid={laid} onLaid={setLaid} />
        <Laid pass={pass} laid={laid} />
        <Runs pass={pass} />
        <Broke frame={frame} pass={pass} />
      </div>
    </article>
  );
}
