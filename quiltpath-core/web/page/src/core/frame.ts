// The frame as the core tells it: asked for anew when the plan or its progress has changed.

import type { AtFrame, LaidSeen, RestSeen } from "quiltpath";
import { useEffect, useState } from "preact/hooks";
import { client, now, progressed, useStore } from "./store";
import type { Said } from "./protocol";

/** What the frame shows, once order and time of the plan are known. */
export function useFrame(): { frame: AtFrame | null; said: Said | null } {
  const { timed, doc } = useStore();
  const [known, setKnown] = useState<{ frame: AtFrame | null; said: Said | null }>({ frame: null, said: null });
  useEffect(() => {
    if (!timed) return;
    let wanted = true;
    client.ask<AtFrame>("passes").then(
      (frame) => wanted && setKnown({ frame, said: null }),
      (said: Said) => wanted && setKnown({ frame: null, said }),
    );
    return () => {
      wanted = false;
    };
  }, [timed, doc.progress]);
  return known;
}

/** Puts what the core has of the progress into the document, as a step that can be taken back. */
async function happened(name: string) {
  const text = await client.ask<string | undefined>("progress");
  progressed(text ? (JSON.parse(text) as object) : null, name);
}

export interface Written {
  mark: string;
  x: string;
  y: string;
}

export async function lay(pass: number, readings: Written[], tape: object[] = []): Promise<LaidSeen> {
  const laid = await client.ask<LaidSeen>("lay", pass, JSON.stringify({ readings, tape }));
  await happened(`readings of pass ${pass}`);
  return laid;
}

export async function forget(pass: number) {
  await client.ask("forgetReadings", pass);
  await happened(`readings of pass ${pass} forgotten`);
}

export async function tick(pass: number, runs: number[], done: boolean) {
  await client.ask("tick", pass, runs, done);
  const which = runs.length === 1 ? `run ${runs[0]}` : `pass ${pass}`;
  await happened(`${which} ${done ? "stitched" : "not stitched"}`);
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
  const answer = await client.ask<{ value: RestSeen; files: [string, Uint8Array][] }>(
    "resume",
    pass,
    run,
    JSON.stringify(stop),
    formats,
  );
  if (!answer.value.strands) await happened(`run ${run} stopped`);
  return { rest: answer.value, files: answer.files };
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
