// The module against the command: `result.json` of every plan of the demo and of 200 plans by
// chance, in node, byte for byte, or where the platforms' sine and cosine differ in the last bit,
// in every number to 2e-9 and in all else.

import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import { DEMO, ROOT, folder } from "./command.mjs";
import { difference, fileDifference } from "./equal.mjs";

const WEB = process.env.QUILTPATH_WEB ?? join(ROOT, "target/web");
const COMMAND = process.env.QUILTPATH ?? join(ROOT, "target/debug/quiltpath");
const PLANS = 200;

let core;
let work;

before(async () => {
  core = await import(join(WEB, "package/quiltpath.js"));
  await core.default({ module_or_path: readFileSync(join(WEB, "package/quiltpath_bg.wasm")) });
  work = folder();
});

after(() => work?.remove());

/** Numbers by chance, the same on every run (a linear congruence, Numerical Recipes' constants). */
function chance(seed) {
  let state = seed >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const between = (low, high) => Number((low + (high - low) * next()).toFixed(3));
  const one = (list) => list[Math.floor(next() * list.length)];
  return { next, between, one };
}

/** The drawings of the demo by name. */
const drawings = Object.fromEntries(
  ["border.svg", "corner.svg", "block.svg"].map((name) => [name, readFileSync(join(DEMO, name), "utf8")]),
);

/** An outline by chance, in inches. */
function outline({ between, one }) {
  const [width, height] = [between(40, 100), between(40, 100)];
  const kind = one(["rectangle", "rectangle", "measured", "points", "polygon"]);
  if (kind === "measured") {
    return { top: width, right: height, bottom: width + between(-0.5, 0.5), left: height, falling: Math.hypot(width, height) + between(-0.4, 0.4) };
  }
  if (kind === "points") {
    const off = () => between(-0.6, 0.6);
    return { outline: [[0, off()], [width + off(), 0], [width, height + off()], [off(), height]] };
  }
  if (kind === "polygon") {
    const sides = one([3, 5, 6, 8]);
    const corner = (at) => (2 * Math.PI * at) / sides + 0.1;
    const place = (at) => [50 + 50 * Math.cos(corner(at)), 50 + 50 * Math.sin(corner(at))];
    return { outline: Array.from({ length: sides }, (_, at) => place(at).map((v) => Number(v.toFixed(3)))) };
  }
  return { width, height };
}

/** A border by chance. */
function border(random, index) {
  const { between, one, next } = random;
  const style = one(["leg", "leg", "block", "mitred", "bent", "butted", "open"]);
  const corner = { style };
  if (style === "leg") corner.motif = "corner.svg";
  if (style === "block") corner.motif = "block.svg";
  if (corner.motif && next() < 0.5) corner.arrangement = one(["mirrored", "turned"]);
  const side = { motif: "border.svg" };
  if (next() < 0.3) side.alternate = one(["left_right", "top_bottom", "centred"]);
  if (next() < 0.3) side.ease = true;
  if (next() < 0.2) side.ends = one(["level", "link"]);
  const made = { name: `border ${index + 1}`, width: between(3, 7), corner, side };
  if (next() < 0.3) made.seam_gap = between(0, 0.6);
  if (next() < 0.3) made.edge_gap = between(0, 0.9);
  return made;
}

function plan(seed) {
  const random = chance(seed);
  const { between, one, next } = random;
  const made = {
    title: `Plan ${seed}`,
    unit: one(["in", "in", "cm", "mm"]),
    quilt: outline(random),
    borders: Array.from({ length: one([1, 1, 1, 2, 3]) }, (_, index) => border(random, index)),
  };
  if (next() < 0.5) made.machine = { throat: between(10, 26) };
  if (made.machine && next() < 0.3) made.machine.turned = true;
  if (made.machine && next() < 0.2) made.order = "corners_first";
  // The same sizes in each unit.
  const factor = { in: 1, cm: 2.54, mm: 25.4 }[made.unit];
  const scaled = (value) => {
    if (typeof value === "number") return Number((value * factor).toFixed(3));
    if (Array.isArray(value)) return value.map(scaled);
    if (value && typeof value === "object") {
      return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, scaled(own)]));
    }
    return value;
  };
  return { ...scaled(made), unit: made.unit };
}

/** What the module answers with. */
function answer(quilt) {
  let sheet;
  try {
    sheet = core.Worksheet.open(JSON.stringify(quilt));
    return { result: sheet.resultJson() };
  } catch (error) {
    assert.ok(error.kind, `no fault of ours: ${error}`);
    return { reason: error.reason };
  } finally {
    sheet?.free();
  }
}

const run = promisify(execFile);

/** What the command answers with. */
async function native(quilt, name) {
  const file = join(work.path, `${name}.quilt.json`);
  writeFileSync(file, JSON.stringify(quilt));
  try {
    const { stdout } = await run(COMMAND, ["plan", file, "--out", "-"], { maxBuffer: 1 << 28 });
    return { result: stdout };
  } catch (error) {
    assert.equal(error.code, 1, error.stderr);
    return { refused: error.stderr };
  }
}

/** Checks one plan; whether it was solved, and equal byte for byte. */
async function check(quilt, name) {
  const own = answer(quilt);
  const theirs = await native(quilt, name);
  if (own.result === undefined) {
    assert.ok(theirs.refused?.includes(own.reason), `${name}: ${own.reason}, and ${theirs.refused ?? "solved"}`);
    return { solved: false, same: true };
  }
  assert.ok(theirs.result !== undefined, `${name}: solved, and ${theirs.refused}`);
  if (own.result === theirs.result) return { solved: true, same: true };
  const found = difference(JSON.parse(own.result), JSON.parse(theirs.result));
  if (found && process.env.SHOW) writeFileSync(process.env.SHOW, JSON.stringify([JSON.parse(own.result), JSON.parse(theirs.result)]));
  assert.equal(found, null, `${name}: ${found}`);
  return { solved: true, same: false };
}

test("every plan of the demo gives the files of the command", async (t) => {
  const plans = readdirSync(DEMO).filter((name) => name.endsWith(".json"));
  assert.ok(plans.length > 10);
  let [same, all] = [0, 0];
  for (const name of plans) {
    const [first, out] = ["first", "out"].map((place) => join(work.path, place, name));
    for (const place of [first, out]) mkdirSync(join(place, ".."), { recursive: true });
    await run(COMMAND, ["plan", join(DEMO, name), "--out", first]);
    const one = readdirSync(first).find((own) => own.endsWith(".quilt.json"));
    await run(COMMAND, ["plan", join(first, one), "--out", out, "--format", "gcode"]);
    const sheet = core.Worksheet.open(readFileSync(join(first, one), "utf8"));
    const names = new Set();
    sheet.files(["gcode"], (file, bytes) => {
      names.add(file);
      const [own, theirs] = [Buffer.from(bytes).toString(), readFileSync(join(out, file), "utf8")];
      all += 1;
      same += own === theirs;
      assert.equal(fileDifference(file, own, theirs), null, `${name}: ${file}`);
    });
    assert.equal(sheet.save(), readFileSync(join(first, one), "utf8"), name);
    sheet.free();
    const written = readdirSync(out, { recursive: true, withFileTypes: true });
    const files = written.filter((entry) => entry.isFile()).map((entry) => entry.name);
    assert.deepEqual([...names].map((file) => basename(file)).sort(), files.sort(), name);
  }
  t.diagnostic(`${same} of ${all} files equal byte for byte`);
});

test("200 plans by chance have the numbers of the command", async (t) => {
  const counts = { solved: 0, same: 0 };
  let next = 0;
  const worker = async () => {
    while (next < PLANS) {
      const seed = next++;
      if (process.env.ONLY && seed !== Number(process.env.ONLY)) continue;
      const { solved, same } = await check({ plan: plan(seed), drawings }, `chance-${seed}`);
      counts.solved += solved;
      counts.same += same;
    }
  };
  await Promise.all([worker(), worker()]);
  t.diagnostic(`${counts.solved} of ${PLANS} solved, ${counts.same} equal byte for byte`);
  assert.ok(counts.solved > PLANS / 2, `${counts.solved} solved`);
});
