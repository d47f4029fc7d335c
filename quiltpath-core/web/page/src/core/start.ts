// How the page starts, and how it is kept: what was kept here before, or a link, or nothing yet.

import { EMPTY, type Doc, opened } from "./document";
import { linked } from "./files";
import { type Restored, draft, keep, restore } from "./keep";
import { begin, now, open, say, subscribe, watchKept } from "./store";

/** After the last key, in milliseconds. */
const PAUSE = 300;

let kept: Doc | null = null;
let timer = 0;
/** Whether another tab keeps this sheet now. */
let elsewhere = false;
let refused = false;

async function keepNow(force = false) {
  clearTimeout(timer);
  timer = 0;
  const { doc } = now();
  if (doc === kept || (elsewhere && !force)) return;
  try {
    elsewhere = (await keep(doc, force)) === "elsewhere";
    if (elsewhere) {
      say("This sheet was changed in another tab since. That one is kept; reload to go on with it, or save this one as a file.");
    } else {
      kept = doc;
      if (refused) say(null);
      refused = false;
    }
  } catch {
    if (!refused) say("This browser keeps nothing for the page. Save the sheet as a file before you close it.");
    refused = true;
  }
  watchKept(doc === kept);
}

/** Keeps each change a moment after the last. */
export function keepChanges() {
  subscribe(() => {
    watchKept(now().doc === kept);
    if (now().doc === kept) return;
    clearTimeout(timer);
    timer = window.setTimeout(() => void keepNow(), PAUSE);
  });
  // What is under way is kept as the page goes; what can't be kept asks before it is lost.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "hidden" || now().doc === kept || elsewhere) return;
    draft(now().doc);
    void keepNow();
  });
  window.addEventListener("beforeunload", (event) => {
    if (now().doc !== kept && now().doc !== EMPTY && (refused || elsewhere)) event.preventDefault();
  });
}

/** The example, an invented quilt. */
export function example(): Doc {
  const all = JSON.parse(document.getElementById("examples")?.textContent ?? "{}") as { demo: object };
  return opened(JSON.stringify(all.demo));
}

/** Starts with what the link brings, or what was kept, or the example. */
export async function start() {
  let own: Restored | null = null;
  try {
    own = await restore();
  } catch {
    refused = true;
    say("This browser keeps nothing for the page. Save the sheet as a file before you close it.");
  }
  kept = own?.whole ? own.doc : null;
  begin(own?.doc ?? example());
  try {
    const brought = linked(location.hash);
    // What was kept before can be taken back.
    if (brought) open(brought, "opened from a link");
  } catch {
    say("The link holds no sheet that can be read.");
  }
  if (location.hash.startsWith("#sheet=")) history.replaceState(null, "", location.pathname + location.search);
  keepChanges();
}

/** Opens a file: a sheet, or a plan alone. Anything else is said. */
export async function openFile(file: File): Promise<boolean> {
  if (file.size > 256 << 20) {
    say(`${file.name} is too large for a sheet.`);
    return false;
  }
  try {
    const doc = opened(await file.text());
    if (!Array.isArray(doc.plan?.borders) && !doc.plan?.quilt) throw new Error("no plan");
    open(doc, `opened ${file.name}`);
    say(null);
    return true;
  } catch {
    say(`${file.name} is no sheet. Open a file whose name ends in .quilt.json, or a plan.json.`);
    return false;
  }
}
