// Makes a change that the core knows: it says which keys of the plan get which values.

import type { Change } from "quiltpath";
import { put, type Doc } from "./document";
import { change, client, now, say } from "./store";

/** Changes that wait for the one before; of a drag the newest alone. */
const waiting: { merge: boolean; go(): void }[] = [];
let going = false;

/** Makes a change of the plan under this name; `merge` continues the last step, `also` makes what
 * goes with it. */
export function make(
  wanted: Change,
  name: string,
  merge = false,
  also: (doc: Doc) => Doc = (doc) => doc,
): void {
  if (going) {
    if (merge && waiting.at(-1)?.merge) waiting.pop();
    waiting.push({ merge, go: () => make(wanted, name, merge, also) });
    return;
  }
  going = true;
  const { doc } = now();
  client
    .ask<[(string | number)[], unknown][]>(
      "editsOf",
      JSON.stringify(doc.plan),
      JSON.stringify(wanted),
    )
    .then((edits) => {
      let next = now().doc;
      for (const [path, value] of edits) next = put(next, path, value ?? undefined);
      if (edits.length > 0) change(also(next), name, merge);
    })
    .catch((said: { message?: string }) => say(said.message ?? String(said)))
    .finally(() => {
      going = false;
      waiting.shift()?.go();
    });
}
