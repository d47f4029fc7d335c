// The runs of a pass: ticks, where each starts and ends, and where a new bobbin goes in.

import type { PassSeen, RunSeen } from "quiltpath";
import { tick } from "../../core/frame";
import { say } from "../../core/store";
import { Set } from "../../set";

/** The line of a run with its bobbins. */
function Thread({ run }: { run: RunSeen }) {
  const x = (length: number) => 10 + (280 * length) / (run.length.value || 1);
  const from = run.bobbins.map((bobbin) => bobbin.after.value);
  return (
    <svg class="thread" viewBox="0 0 300 34" aria-hidden="true" style={{ "--px": 1 }}>
      <path class="used" d="M10 20H290" />
      <circle class="first" cx="10" cy="20" r="5" />
      <path class="last" d="M285 15h10v10h-10z" />
      {from.map((length, at) => (
        <g key={at}>
          <path class="stem" d={`M${x(length)} 20V8`} />
          <circle class="bobbin" cx={x(length)} cy="6" r="4.5" />
        </g>
      ))}
      {run.bobbins.map(
        (bobbin, at) => bobbin.empty !== null && <path key={at} class="empty" d={`M${x(bobbin.empty)} 14v12`} />,
      )}
    </svg>
  );
}

export function Runs({ pass }: { pass: PassSeen }) {
  const set = (run: RunSeen, done: boolean) => {
    tick(pass.number, [run.number], done).catch((said: { message?: string }) =>
      say(said.message ?? "That could not be ticked."),
    );
  };
  return (
    <div class="runs-of">
      <h3>Runs, in this order</h3>
      <ol class="steps">
        {pass.runs.map((run) => (
          <li key={run.number}>
            <label>
              <input
                type="checkbox"
                checked={run.stitched}
                onChange={(event) => set(run, event.currentTarget.checked)}
              />
              <span>
                <b>Run {run.number}</b>, <Set text={run.length.says} />, {run.stitches.toLocaleString("en")} stitches,
                from <Set text={run.ends[0].map((own) => own.says).join(", ")} />
                {run.closed ? " round to where it starts" : null}
                {!run.closed && (
                  <>
                    {" to "}
                    <Set text={run.ends[1].map((own) => own.says).join(", ")} />
                  </>
                )}
              </span>
            </label>
            {run.bobbins.length > 0 && (
              <>
                <Thread run={run} />
                {run.bobbins.map((bobbin) => (
                  <p key={bobbin.after.says}>
                    New bobbin after <Set text={bobbin.after.says} />, {bobbin.why}.
                  </p>
                ))}
              </>
            )}
          </li>
        ))}
      </ol>
      <details>
        <summary>The stops of its needle-up check</summary>
        <ol class="stops">
          {pass.stops.map((stop, at) => (
            <li key={at}>{stop.join("; ")}</li>
          ))}
        </ol>
      </details>
    </div>
  );
}
