// How the page starts, and how it is kept: what was kept here before, or a link, or nothing yet.

import { type Doc, Unshown, brought, opened } from "./document";
import { linked } from "./files";
import { type Restored, draft, isNewer, keep, restore } from "./keep";
import { begin, now, open, say, subscribe, watchKept } from "./store";

/** After the last key, in milliseconds. */
const PAUSE = 300;

let kept: Doc | null = null;
/** What the page started with; nothing of hers is lost with that. */
let begun: Doc | null = null;
let timer = 0;
/** Whether another tab keeps this sheet now. */
let elsewhere = false;
let refused = false;

function tellKept() {
  watchKept(now().doc === kept ? "kept" : refused || elsewhere ? "not" : "soon");
}

function tellRefused() {
  if (!refused) say("This browser can't keep the sheet. Save it as a file before you close the page.");
  refused = true;
}

function tellElsewhere() {
  elsewhere = true;
  kept = null;
  say("Another tab has changed this sheet since, and that one is kept. Reload to go on with it.", {
    says: "Keep this one",
    go: () => void keepNow(true),
  });
}

async function keepNow(force = false) {
  clearTimeout(timer);
  timer = 0;
  const { doc } = now();
  if (doc === kept || (elsewhere && !force)) return;
  try {
    if ((await keep(doc, force)) === "elsewhere") tellElsewhere();
    else {
      kept = doc;
      if (refused || elsewhere) say(null);
      [refused, elsewhere] = [false, false];
    }
  } catch {
    tellRefused();
  }
  tellKept();
}

/** Says at once when she comes back to a sheet that another tab has changed. */
async function lookAgain() {
  if (elsewhere || refused || document.visibilityState === "hidden") return;
  if (await isNewer().catch(() => false)) tellElsewhere();
  tellKept();
}

/** Keeps each change a moment after the last. */
export function keepChanges() {
  subscribe(() => {
    tellKept();
    if (now().doc === kept) return;
    clearTimeout(timer);
    timer = window.setTimeout(() => void keepNow(), PAUSE);
  });
  // What is under way is kept as the page goes; what can't be kept asks before it is lost.
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "hidden") return void lookAgain();
    if (now().doc === kept || elsewhere) return;
    draft(now().doc);
    void keepNow();
  });
  window.addEventListener("focus", () => void lookAgain());
  window.addEventListener("beforeunload", (event) => {
    const { doc } = now();
    if (doc !== kept && doc !== begun && (refused || elsewhere)) event.preventDefault();
  });
}

/** The example, an invented quilt. */
export function example(): Doc {
  const all = JSON.parse(document.getElementById("examples")?.textContent ?? "{}") as { demo: object };
  return opened(JSON.stringify(all.demo));
}

/** Opens what a link brings; what was there before can be taken back. */
function bring() {
  if (!location.hash.startsWith("#sheet=")) return;
  try {
    open(linked(location.hash), "opened from a link");
  } catch (error) {
    say(error instanceof Unshown ? `The link can't be opened: ${error.message}.` : "The link holds no sheet that can be read.");
  }
  history.replaceState(null, "", location.pathname + location.search);
}

/** Starts with what the link brings, or what was kept, or the example. */
export async function start() {
  let own: Restored | null = null;
  try {
    own = await restore();
  } catch {
    tellRefused();
  }
  kept = own?.whole ? own.doc : null;
  begun = own?.doc ?? example();
  begin(begun);
  bring();
  window.addEventListener("hashchange", bring);
  keepChanges();
}

/** Opens a file: a sheet, or a plan alone. Anything else is said. */
export async function openFile(file: File): Promise<boolean> {
  if (file.size > 256 << 20) {
    say(`${file.name} is too large for a sheet.`);
    return false;
  }
  try {
    open(brought(await file.text()), `opened ${file.name}`);
    say(null);
    return true;
  } catch (error) {
    if (error instanceof Unshown) say(`${file.name} can't be opened: ${error.message}.`);
    else say(`${file.name} is no sheet. Open a file whose name ends in .quilt.json, or a plan.json.`);
    return false;
  }
}
