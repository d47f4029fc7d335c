// What all of it takes, in one paragraph: passes, minutes, stitches, bobbins, thread.

import type { Seen } from "quiltpath";

export function TotalsSaid({ seen, fresh }: { seen: Seen; fresh: boolean }) {
  const { totals, thread } = seen;
  if (totals.stitches === undefined || totals.minutes === undefined || !thread) {
    return <p class="sum help">Passes, stitches and time are being worked out.</p>;
  }
  const passes = totals.passes ?? 1;
  const cuts = totals.thread_cuts;
  const bobbins = totals.bobbins;
  return (
    <p class={fresh ? "sum" : "sum stale"} aria-live="polite">
      All of it takes <b>{counted(Math.round(totals.minutes), "minute")}</b> and{" "}
      <b>{counted(totals.stitches, "stitch", "stitches")}</b> in{" "}
      <b>{counted(passes, "pass", "passes")}</b>.{" "}
      {bobbins != null && (
        <>
          Wind <b>{counted(bobbins, "bobbin")}</b>; have{" "}
        </>
      )}
      {bobbins == null && "Have "}
      <b>{thread[0]}</b> of needle thread and <b>{thread[1]}</b> for bobbins. The thread is cut{" "}
      <b>{counted(cuts, "time")}</b>
      {totals.least_thread_cuts === cuts && "; no order needs fewer"}.
    </p>
  );
}

function counted(count: number, one: string, many = `${one}s`): string {
  return `${count.toLocaleString("en-US")}\u00a0${count === 1 ? one : many}`;
}
