// The frame as the core tells it: asked for anew when the plan or its progress has changed.

import type { AtFrame, LaidSeen, RestSeen } from "quiltpath";
import { useEffect, useRef, useState } from "preact/hooks";
import type { Plan } from "./document";
import { client, now, progressed, useStore } from "./store";
import type { Happened, Said } from "./protocol";

/** The passes of another plan are asked for once nothing has changed for so long: the worker is free
 * for the next key until then. */
const QUIET_MS = 300;

/** What the frame shows, once order and time of the plan are known. */
export function useFrame(): { frame: AtFrame | null; said: Said | null } {
  const { timed, doc } = useStore("timed", "doc");
  const [known, setKnown] = useState<{ frame: AtFrame | null; said: Said | null }>({ frame: null, said: null });
  const asked = useRef<Plan | null>(null);
  useEffect(() => {
    if (!timed) return;
    let wanted = true;
    const ask = () => {
      asked.current = doc.plan;
      client.ask<AtFrame>("passes").then(
        (frame) => wanted && setKnown({ frame, said: null }),
        (said: Said) => wanted && setKnown({ frame: null, said }),
      );
    };
    const later = setTimeout(ask, asked.current === doc.plan ? 0 : QUIET_MS);
    return () => {
      wanted = false;
      clearTimeout(later);
    };
  }, [timed, doc.progress]);
  return known;
}

/** What happens waits for what happened before to be in the document, which the core is told of. */
let before: Promise<unknown> = Promise.resolve();

/** Has the core do what happened at the frame, and puts the progress that comes of it into the
 * document, as a step that can be taken back. */
function happens<T>(verb: string, values: unknown[], name: (answer: Happened<T>) => string | null): Promise<Happened<T>> {
  const own = before.then(async () => {
    const answer = await client.ask<Happened<T>>(verb, ...values);
    const step = name(answer);
    if (step !== null) progressed(answer.progress === null ? null : (JSON.parse(answer.progress) as object), step);
    return answer;
  });
  before = own.catch(() => undefined);
  return own;
}

export interface Written {
  mark: string;
  x: string;
  y: string;
}

export async function lay(pass: number, readings: Written[], tape: object[] = []): Promise<LaidSeen> {
  const values = [pass, JSON.stringify({ readings, tape })];
  return (await happens<LaidSeen>("lay", values, () => `readings of pass ${pass}`)).value;
}

export async function forget(pass: number) {
  await happens("forgetReadings", [pass], () => `readings of pass ${pass} forgotten`);
}

export async function tick(pass: number, runs: number[], done: boolean) {
  const which = runs.length === 1 ? `run ${runs[0]}` : `pass ${pass}`;
  await happens("tick", [pass, runs, done], () => `${which} ${done ? "stitched" : "not stitched"}`);
}

export function passFiles(pass: number, formats: string[]): Promise<[string, Uint8Array][]> {
  return client.ask("passFiles", pass, formats);
}

export async function resume(
  pass: number,
  run: number,
  stop: object,
  formats: string[],
): Promise<{ rest: RestSeen; files: [string, Uint8Array][] }> {
  const values = [pass, run, JSON.stringify(stop), formats];
  const { value, files } = await happens<RestSeen>("resume", values, (answer) =>
    answer.value.strands ? null : `run ${run} stopped`,
  );
  return { rest: value, files };
}

/** What she ticked of the steps, kept beside the sheet, since it is no progress of the quilt. */
export function stepsOf(pass: number): boolean[] {
  try {
    return JSON.parse(localStorage.getItem(`steps ${now().doc.plan.title ?? ""} ${pass}`) ?? "[]") as boolean[];
  } catch {
    return [];
  }
}

export function keepSteps(pass: number, steps: boolean[]) {
  try {
    localStorage.setItem(`steps ${now().doc.plan.title ?? ""} ${pass}`, JSON.stringify(steps));
  } catch {
    // The ticks then last as long as the page.
  }
}
