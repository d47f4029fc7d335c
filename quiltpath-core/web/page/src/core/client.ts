// The page's side of the worker: the newest document wins, and a worker that breaks or takes too
// long gives way to a fresh one.

import type { Seen } from "quiltpath";
import type { Reply, Request, Said, Sheet } from "./protocol";

/** A step that takes longer than this gives way when something newer waits. */
const PATIENCE_MS = 1500;

/** What the client tells the page. */
export interface Listener {
  seen(seen: Seen, notes: [string, string][]): void;
  timed(seen: Seen, before: string | null, progress: string | null): void;
  refused(said: Said): void;
  broken(message: string): void;
  busy(busy: boolean): void;
}

/** What lies in an element of the page. */
function embedded(id: string): string {
  return document.getElementById(id)?.textContent ?? "";
}

/** The module, unpacked. */
async function module(): Promise<ArrayBuffer> {
  const packed = Uint8Array.from(atob(embedded("module")), (c) => c.charCodeAt(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

export class Client {
  #worker: Worker | null = null;
  #module: Promise<ArrayBuffer> = module();
  #code = URL.createObjectURL(
    new Blob([JSON.parse(embedded("worker")) as string], { type: "text/javascript" }),
  );
  #ready: Promise<void> = Promise.resolve();
  #drawings = new Map<string, Uint8Array>();
  #turn = 0;
  /** The turn that the worker is at, since when. */
  #at: { turn: number; since: number } | null = null;
  #next: Sheet | null = null;
  #whole = true;
  #timer = 0;
  #asked = new Map<number, { request: Request; done(value: unknown): void; fail(said: Said): void }>();
  #id = 0;

  constructor(private readonly listener: Listener) {
    this.#start();
  }

  #start() {
    const worker = new Worker(this.#code);
    this.#worker = worker;
    this.#at = null;
    this.#whole = true;
    this.#ready = this.#module.then((bytes) => {
      const started = new Promise<void>((resolve) => {
        worker.onmessage = (event: MessageEvent<Reply>) => {
          if (event.data.type === "ready") resolve();
          else if (worker === this.#worker) this.#hear(event.data);
        };
      });
      worker.onerror = () => this.#broke("the worker could not go on");
      worker.postMessage({ type: "module", bytes } satisfies Request);
      const set = [...this.#drawings];
      return started.then(() => worker.postMessage({ type: "drawings", set, remove: [] } satisfies Request));
    });
  }

  /** What was asked for has no answer any more. */
  #drop(message: string) {
    for (const { fail } of this.#asked.values()) {
      fail({ kind: "other", message, reason: message, place: null, file: null, position: null, hint: null });
    }
    this.#asked.clear();
  }

  #broke(message: string) {
    this.#worker?.terminate();
    this.#drop(message);
    this.#start();
    this.listener.broken(message);
  }

  #send(message: Request) {
    const worker = this.#worker;
    void this.#ready.then(() => {
      if (worker === this.#worker) worker?.postMessage(message);
    });
  }

  /** Has the worker know these drawings and no others. */
  setDrawings(drawings: ReadonlyMap<string, Uint8Array>) {
    const set = [...drawings].filter(([name, bytes]) => this.#drawings.get(name) !== bytes);
    const remove = [...this.#drawings.keys()].filter((name) => !drawings.has(name));
    if (set.length + remove.length === 0) return;
    this.#drawings = new Map(drawings);
    this.#send({ type: "drawings", set, remove });
  }

  /** Solves this; what was asked for before and isn't there yet is not wanted any more. */
  solve(sheet: Sheet) {
    this.#next = sheet;
    if (!this.#at) this.#go();
    else if (performance.now() - this.#at.since > PATIENCE_MS) this.#restart();
    else {
      clearTimeout(this.#timer);
      this.#timer = window.setTimeout(() => {
        if (this.#next) this.#restart();
      }, PATIENCE_MS);
    }
  }

  #restart() {
    this.#worker?.terminate();
    this.#drop("something newer came before the answer");
    this.#start();
    this.#go();
    // What was asked for is asked of the fresh one.
    for (const { request } of this.#asked.values()) this.#send(request);
  }

  #go() {
    const sheet = this.#next;
    if (!sheet) return;
    this.#next = null;
    this.#turn += 1;
    this.#at = { turn: this.#turn, since: performance.now() };
    this.listener.busy(true);
    this.#send({ type: "solve", turn: this.#turn, sheet, whole: this.#whole });
    this.#whole = false;
  }

  /** Gives the whole picture at the next turn. */
  showAll() {
    this.#whole = true;
  }

  #hear(message: Reply) {
    switch (message.type) {
      case "seen":
        if (message.turn !== this.#turn) return;
        this.listener.seen(message.seen, message.notes);
        // What is newer stops the second step.
        if (this.#next) this.#go();
        return;
      case "timed":
      case "refused":
        if (message.turn !== this.#turn) return;
        this.#at = null;
        if (message.type === "timed") this.listener.timed(message.seen, message.before, message.progress);
        else this.listener.refused(message.said);
        this.listener.busy(false);
        return this.#go();
      case "answer":
      case "denied": {
        const asked = this.#asked.get(message.id);
        this.#asked.delete(message.id);
        if (message.type === "answer") asked?.done(message.value);
        else asked?.fail(message.said);
        return;
      }
      case "broken":
        return this.#broke(message.message);
    }
  }

  /** Calls a method of the worksheet in the worker, on the newest document. */
  ask<T>(verb: string, ...values: unknown[]): Promise<T> {
    if (this.#next) this.#go();
    const id = ++this.#id;
    const request: Request = { type: "ask", id, verb, values };
    return new Promise<T>((resolve, reject) => {
      this.#asked.set(id, { request, done: (value) => resolve(value as T), fail: reject });
      this.#send(request);
    });
  }
}
