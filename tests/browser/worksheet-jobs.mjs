// Jobs done with the worksheet from start to end, by mouse, by touch and by keyboard alone; each
// ends in files equal to those that the command writes of the sheet that was saved.

import assert from "node:assert/strict";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, test } from "node:test";
import { launch } from "./browser.mjs";
import { DEMO, ROOT, folder, quiltpath } from "./command.mjs";
import { fileDifference, filesBelow } from "./equal.mjs";
import { Worksheet, visitor } from "./worksheet.mjs";

let browser;
let work;

before(async () => {
  browser = await launch();
  work = folder();
});

after(async () => {
  await browser?.close();
  work?.remove();
});

/** Saves the sheet and everything for the machine; the command has to write the same of it. */
async function equalFiles(sheet, name) {
  await sheet.settled();
  const saved = await sheet.save();
  const place = join(work.path, name);
  mkdirSync(place, { recursive: true });
  writeFileSync(join(place, saved.name), saved.text);
  quiltpath("plan", join(place, saved.name), "--out", join(place, "out"));
  const theirs = filesBelow(join(place, "out"));
  const { name: archive, files } = await sheet.saveAll();
  assert.equal(archive, saved.name.replace(/\.quilt\.json$/, ".zip"));
  assert.deepEqual([...files.keys()].sort(), [...theirs.keys()].sort());
  for (const [file, own] of files) {
    assert.equal(fileDifference(file, own, theirs.get(file)), null, `${name}: ${file}`);
  }
  return { plan: JSON.parse(saved.text).plan, result: JSON.parse(files.get("result.json")) };
}

/** A job by a visitor who has never been here; `does` returns what else is to hold at the end. */
function job(name, manner, does) {
  const said = `${manner.width} px, ${manner.scheme}, ${manner.way}`;
  test(`${name} (${said})`, async () => {
    const who = await visitor(browser);
    const sheet = await Worksheet.open(who, manner);
    const holds = await does(sheet);
    await sheet.settled();
    await sheet.clean(name);
    const { plan, result } = await equalFiles(sheet, name.replaceAll(/\W+/g, "-"));
    holds?.(plan, result);
    await sheet.close();
    await who.leave();
  });
}

job("a border and its corner", { width: 1440, scheme: "light", way: "mouse" }, async (sheet) => {
  await sheet.write("Name of the quilt", "Our own");
  await sheet.write("Top edge", "72 3/8");
  await sheet.write("Left edge", "90");
  await sheet.write("Width of border", "6 1/2");
  await sheet.write("Kept free at the edge of border", "3/4");
  return (plan, result) => {
    assert.deepEqual(plan.quilt, { width: "72 3/8", height: "90" });
    assert.equal(plan.title, "Our own");
    assert.equal(result.unit, "in");
    assert.equal(result.borders[0].depth, 5.5);
  };
});

job("three borders", { width: 820, scheme: "dark", way: "touch" }, async (sheet) => {
  await sheet.press("Add a border inside");
  await sheet.write("Width of border 2", "5");
  await sheet.press("Add a border inside");
  await sheet.write("Width of border 3", "3 1/2");
  return (plan) => assert.deepEqual(plan.borders.map((border) => border.width), [6, "5", "3 1/2"]);
});

job("out of square", { width: 390, scheme: "light", way: "keyboard" }, async (sheet) => {
  for (const [edge, length] of [["Top", "64 1/4"], ["Right", "80 3/8"], ["Bottom", "64"], ["Left", "80"]]) {
    await sheet.write(`${edge} edge`, length);
  }
  await sheet.write("Diagonal, top left to bottom right", "102 3/4");
  return (plan) => {
    assert.deepEqual(plan.quilt, { top: "64 1/4", right: "80 3/8", bottom: "64", left: "80", falling: "102 3/4" });
  };
});

const CORNERS = "For the corners";
const SIDES = "For the sides";
const MOTIFS = join(ROOT, "fixtures/motifs");

/** Chooses a drawing, and waits until it is in its place. */
async function draw(sheet, card, file) {
  await sheet.draw(card, file);
  await sheet.changed(basename(file));
}

job("a hexagon in centimetres", { width: 1440, scheme: "dark", way: "keyboard" }, async (sheet) => {
  await sheet.take("cm");
  await sheet.take("its corners");
  await sheet.press("Add a corner");
  await sheet.press("Add a corner");
  const corners = [[30, 0], [90, 0], [120, 52], [90, 104], [30, 104], [0, 52]];
  for (const [index, [across, down]] of corners.entries()) {
    await sheet.write(`corner ${index + 1}, across`, String(across));
    await sheet.write(`corner ${index + 1}, down`, String(down));
  }
  await sheet.write("Width of border", "12");
  await sheet.write("Kept free at the edge of border", "1");
  await sheet.write("Kept free at the seam of border", "0.5");
  await sheet.take("mitred");
  await draw(sheet, SIDES, join(MOTIFS, "vine.svg"));
  return (plan, result) => {
    assert.deepEqual(plan.quilt.corners.map((corner) => corner.map(Number)), corners);
    assert.equal(result.unit, "cm");
    assert.equal(result.borders[0].depth, 10.5);
  };
});

job("a block trimmed to an L", { width: 820, scheme: "light", way: "mouse" }, async (sheet) => {
  await draw(sheet, CORNERS, join(DEMO, "block.svg"));
  await sheet.press("cut it to an L");
  await sheet.write("Depth of the legs that it is cut to, as drawn", "4 3/4 in");
  await draw(sheet, SIDES, join(MOTIFS, "vine.svg"));
  return (plan) => assert.deepEqual(plan.borders[0].corner.trim, { leg_depth: "4 3/4 in" });
});

job("no corner drawing", { width: 390, scheme: "dark", way: "touch" }, async (sheet) => {
  await sheet.take("mitred");
  await draw(sheet, SIDES, join(MOTIFS, "vine.svg"));
  await sheet.write("Over how much of the line the turn is rounded off", "1/4");
  return (plan) => {
    assert.equal(plan.borders[0].corner.style, "mitred");
    assert.equal(plan.borders[0].corner.smooth, "1/4");
    assert.equal(plan.borders[0].corner.motif, undefined);
  };
});

job("a drawing of many strokes", { width: 390, scheme: "light", way: "mouse" }, async (sheet) => {
  await draw(sheet, SIDES, join(MOTIFS, "sprig.svg"));
  return (plan, result) => {
    assert.equal(plan.borders[0].side.motif, "sprig.svg");
    assert.ok(result.totals.length > 0);
  };
});

job("a photo of a drawing", { width: 820, scheme: "light", way: "touch" }, async (sheet) => {
  await sheet.draw(SIDES, join(MOTIFS, "on-paper.png"));
  await sheet.press("Take it");
  await sheet.changed("on-paper.svg");
  return (plan) => assert.equal(plan.borders[0].side.motif, "on-paper.svg");
});
