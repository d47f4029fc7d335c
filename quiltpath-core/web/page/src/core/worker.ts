// The worker: it holds the module and one worksheet, and answers the page.

import init, { Worksheet, lastPanic } from "quiltpath";
import type { Happened, Reply, Request, Said, Sheet } from "./protocol";

let sheet: Worksheet;
/** The turn that is wanted; older ones stop. */
let wanted = 0;
let stitching: MessageChannel | null = null;
/** The plan that the worksheet has; setting it anew would solve it anew. */
let held: string | null = null;
/** Why the newest plan was refused; the worksheet then still holds the one before. */
let refused: Said | null = null;
/** Drawings whose names are none, and why. */
const unnamed = new Map<string, Said>();

const reply = (message: Reply) => self.postMessage(message);

/** What was thrown as data. */
function said(error: unknown): Said {
  const own = error as Partial<Said> & { message?: string };
  return {
    kind: own.kind ?? "other",
    message: own.message ?? String(error),
    reason: own.reason ?? own.message ?? String(error),
    place: own.place ?? null,
    file: own.file ?? null,
    position: own.position ?? null,
    hint: own.hint ?? null,
  };
}

/** True when the module has given up; the page is told so. */
function broke(error: unknown): boolean {
  if (!(error instanceof WebAssembly.RuntimeError) && !(error instanceof RangeError)) return false;
  let message = String(error);
  try {
    message = lastPanic() ?? message;
  } catch {
    // Without memory it can't say more.
  }
  reply({ type: "broken", message });
  return true;
}

function solve(turn: number, asked: Sheet, whole: boolean) {
  wanted = turn;
  stitching?.port1.close();
  stitching = null;
  refused = [...unnamed.values()][0] ?? null;
  if (refused) return reply({ type: "refused", turn, said: refused });
  try {
    if (asked.plan !== held) {
      sheet.setPlan(asked.plan);
      held = asked.plan;
    }
    sheet.setProgress(asked.before ?? undefined, asked.progress ?? undefined);
    sheet.setLetters(asked.letters);
    if (whole) sheet.showAll();
    reply({ type: "seen", turn, seen: sheet.solve(), notes: sheet.notes() });
  } catch (error) {
    if (broke(error)) return;
    refused = said(error);
    reply({ type: "refused", turn, said: refused });
    return;
  }
  // A newer turn that waits already is heard before this comes back.
  stitching = new MessageChannel();
  stitching.port1.onmessage = () => {
    if (turn !== wanted) return;
    try {
      const seen = sheet.stitch();
      const [before, progress] = [sheet.before() ?? null, sheet.progress() ?? null];
      reply({ type: "timed", turn, seen, before, progress });
    } catch (error) {
      if (!broke(error)) reply({ type: "refused", turn, said: said(error) });
    }
  };
  stitching.port2.postMessage(null);
}

/** Verbs that give files, one after the other; they come in one list. */
const GIVING = ["files", "passFiles", "resume"];

/** Verbs that change the progress, which comes with their answer. */
const HAPPENING = ["lay", "forgetReadings", "tick", "resume"];

/** A worksheet for drawings that are read by themselves. */
let alone: Worksheet | null = null;

/** A drawing as the one border of a plan takes it. */
function readAlone(plan: string, name: string, bytes: Uint8Array, role: "corner" | "side"): unknown {
  alone ??= new Worksheet();
  alone.setPlan(plan);
  alone.setDrawing(name, bytes);
  try {
    return alone.readDrawing(0, role);
  } finally {
    alone.removeDrawing(name);
  }
}

function ask(verb: string, values: unknown[]): unknown {
  if (verb === "readAlone") return readAlone(...(values as Parameters<typeof readAlone>));
  // A plan that is refused has none of these.
  if (GIVING.includes(verb) && refused) throw refused;
  const methods = sheet as unknown as Record<string, (...values: unknown[]) => unknown>;
  const method = methods[verb];
  if (!method) throw new Error(`no such verb: ${verb}`);
  const files: [string, Uint8Array][] = [];
  const put = (name: string, bytes: Uint8Array) => files.push([name, bytes]);
  const value = method.apply(sheet, GIVING.includes(verb) ? [...values, put] : values);
  if (HAPPENING.includes(verb)) return { value, files, progress: sheet.progress() ?? null } satisfies Happened<unknown>;
  return GIVING.includes(verb) ? files : value;
}

function setDrawings(set: [string, Uint8Array][], remove: string[]) {
  for (const name of remove) {
    unnamed.delete(name);
    sheet.removeDrawing(name);
  }
  for (const [name, bytes] of set) {
    try {
      sheet.setDrawing(name, bytes);
    } catch (error) {
      if (broke(error)) return;
      unnamed.set(name, said(error));
    }
  }
}

async function hear(message: Request) {
  switch (message.type) {
    case "module":
      try {
        await init({ module_or_path: message.bytes });
        sheet = new Worksheet();
      } catch (error) {
        return reply({ type: "broken", message: String(error) });
      }
      return reply({ type: "ready" });
    case "drawings":
      return setDrawings(message.set, message.remove);
    case "solve":
      return solve(message.turn, message.sheet, message.whole);
    case "ask":
      try {
        reply({ type: "answer", id: message.id, value: ask(message.verb, message.values) });
      } catch (error) {
        if (!broke(error)) reply({ type: "denied", id: message.id, said: said(error) });
      }
  }
}

self.onmessage = (event: MessageEvent<Request>) => void hear(event.data);
