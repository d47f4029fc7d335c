// Jobs done with the worksheet from start to end, by mouse, by touch and by keyboard alone; each
// ends in files equal to those that the command writes of the sheet that was saved.

import assert from "node:assert/strict";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
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

/** A plan of the demo with its drawings in one file, as the command makes it. */
function oneFile(name) {
  const out = join(work.path, `demo-${name}`);
  quiltpath("plan", join(DEMO, `${name}.json`), "--out", out);
  const [file] = [...filesBelow(out).keys()].filter((own) => own.endsWith(".quilt.json"));
  return join(out, file);
}

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

job("a hexagon in centimetres", { width: 1440, scheme: "dark", way: "keyboard" }, async (sheet) => {
  await sheet.choose("A sheet to open", oneFile("hexagon"));
  await sheet.the("textbox", "corner 6, across");
  await sheet.take("cm");
  const corners = [[30, 0], [90, 0], [120, 52], [90, 104], [30, 104], [0, 52]];
  for (const [index, [across, down]] of corners.entries()) {
    await sheet.write(`corner ${index + 1}, across`, String(across));
    await sheet.write(`corner ${index + 1}, down`, String(down));
  }
  await sheet.write("Width of border", "12");
  return (plan, result) => {
    assert.deepEqual(plan.quilt.corners.map((corner) => corner.map(Number)), corners);
    assert.equal(result.unit, "cm");
  };
});

for (const [name, demo, manner] of [
  ["a block trimmed to an L", "trimmed", { width: 820, scheme: "light", way: "mouse" }],
  ["no corner drawing", "mitred", { width: 390, scheme: "dark", way: "touch" }],
]) {
  job(name, manner, async (sheet) => {
    await sheet.choose("A sheet to open", oneFile(demo));
    await sheet.page.waitForFunction(() => document.querySelector(".head").textContent.includes("opened"));
    await sheet.write("Width of border", "7");
    return (plan) => assert.equal(plan.borders[0].width, "7");
  });
}
