// The page's side of the worker: the newest document wins, and a worker that breaks or takes too
// long gives way to a fresh one.

import type { Seen } from "quiltpath";
import type { Reply, Request, Said, Sheet } from "./protocol";

/** A step that takes longer than this gives way when something newer waits. */
const PATIENCE_MS = 1500;

/** So often a worker may break without an answer in between. */
const MOST_TRIES = 2;

/** What the client tells the page. */
export interface Listener {
  seen(seen: Seen, notes: [string, string][]): void;
  /** What was solved round, and what happened since, unless something newer waits. */
  timed(seen: Seen, stands: { before: string | null; progress: string | null } | null): void;
  refused(said: Said): void;
  /** The worker broke, and a fresh one is there; `again` where it may not break again. */
  broken(said: Said, again: boolean): void;
  /** No worker can be started here. */
  dead(said: Said): void;
  busy(busy: boolean): void;
}

/** What lies in an element of the page. */
function embedded(id: string): string {
  return document.getElementById(id)?.textContent ?? "";
}

/** What the page itself has to say. */
function own(message: string): Said {
  return { kind: "other", message, reason: message, place: null, file: null, position: null, hint: null };
}

interface Asked {
  request: Request;
  /** Whether a second worker is asked. */
  again: boolean;
  done(value: unknown): void;
  fail(said: Said): void;
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
  /** The turn that the worker is at, since when; it is at none before it has the module. */
  #at: { turn: number; since: number } | null = null;
  #next: Sheet | null = null;
  #whole = true;
  #timer = 0;
  #asked = new Map<number, Asked>();
  #id = 0;
  /** How often a worker broke since the last answer, and whether one ever was ready. */
  #broken = 0;
  #loaded = false;
  /** Why nothing can be worked out here. */
  #dead: Said | null = null;

  constructor(private readonly listener: Listener) {
    this.#start();
  }

  #start() {
    this.#at = null;
    this.#whole = true;
    let worker: Worker;
    try {
      worker = new Worker(this.#code);
    } catch (error) {
      return this.#die(String(error));
    }
    this.#worker = worker;
    worker.onerror = (event) => {
      event.preventDefault();
      if (worker === this.#worker) this.#broke(event.message || "the worker could not go on");
    };
    const set = () => [...this.#drawings];
    this.#ready = this.#module.then(
      (bytes) =>
        new Promise<void>((resolve) => {
          worker.onmessage = (event: MessageEvent<Reply>) => {
            if (worker !== this.#worker) return;
            if (event.data.type !== "ready") return this.#hear(event.data);
            this.#loaded = true;
            worker.postMessage({ type: "drawings", set: set(), remove: [] } satisfies Request);
            resolve();
          };
          worker.postMessage({ type: "module", bytes } satisfies Request);
        }),
      (error: unknown) => this.#die(String(error)),
    );
  }

  /** What was asked for has no answer any more. */
  #drop(said: Said) {
    for (const { fail } of this.#asked.values()) fail(said);
    this.#asked.clear();
  }

  #broke(message: string) {
    this.#broken += 1;
    if (!this.#loaded && this.#broken >= MOST_TRIES) return this.#die(message);
    const again = this.#broken < MOST_TRIES || this.#next !== null;
    this.#worker?.terminate();
    this.#drop(own(message));
    this.#start();
    this.listener.busy(false);
    this.listener.broken(own(message), again);
  }

  #die(message: string) {
    this.#worker?.terminate();
    this.#worker = null;
    this.#next = null;
    this.#dead = own(message);
    this.#drop(this.#dead);
    this.listener.busy(false);
    this.listener.dead(this.#dead);
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
    if (this.#dead) return;
    this.#next = sheet;
    if (!this.#at) this.#go();
    else this.#wait();
  }

  /** Has a turn that takes too long give way to what waits. */
  #wait() {
    clearTimeout(this.#timer);
    if (!this.#next || !this.#at) return;
    const left = PATIENCE_MS - (performance.now() - this.#at.since);
    if (left <= 0) this.#restart();
    else this.#timer = window.setTimeout(() => this.#wait(), Math.min(left, PATIENCE_MS));
  }

  #restart() {
    this.#worker?.terminate();
    this.#start();
    this.#go();
    // What was asked for is asked of the fresh one, too, but of no third.
    for (const [id, asked] of this.#asked) {
      if (asked.again) {
        this.#asked.delete(id);
        asked.fail(own("something newer came before the answer"));
      } else {
        asked.again = true;
        this.#send(asked.request);
      }
    }
  }

  #go() {
    const sheet = this.#next;
    if (!sheet) return;
    this.#next = null;
    this.#turn += 1;
    const at = { turn: this.#turn, since: Number.POSITIVE_INFINITY };
    this.#at = at;
    this.listener.busy(true);
    this.#send({ type: "solve", turn: this.#turn, sheet, whole: this.#whole });
    void this.#ready.then(() => {
      at.since = performance.now();
    });
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
        this.#broken = 0;
        if (message.type === "timed") this.listener.timed(message.seen, this.#next ? null : message);
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
    if (this.#dead) return Promise.reject(this.#dead);
    if (this.#next) this.#go();
    const id = ++this.#id;
    const request: Request = { type: "ask", id, verb, values };
    return new Promise<T>((resolve, reject) => {
      this.#asked.set(id, { request, again: false, done: (value) => resolve(value as T), fail: reject });
      this.#send(request);
    });
  }
}
