// Runs the command as it stands in this repository, in a folder of its own.

import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = fileURLToPath(new URL("../..", import.meta.url));

export const DEMO = join(ROOT, "fixtures/demo");

/** A new folder, and how to remove it. */
export function folder() {
  const path = mkdtempSync(join(tmpdir(), "quiltpath-"));
  return { path, remove: () => rmSync(path, { recursive: true }) };
}

/** Runs the command: the one that the environment variable QUILTPATH names, or the one of cargo. */
export function quiltpath(...args) {
  const built = process.env.QUILTPATH;
  const [program, before] = built
    ? [resolve(ROOT, built), []]
    : ["cargo", ["run", "--quiet", "--locked", "--package", "quiltpath-cli", "--"]];
  execFileSync(program, [...before, ...args], { cwd: ROOT, stdio: ["ignore", "ignore", "pipe"] });
}
