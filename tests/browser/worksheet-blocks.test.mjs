// Blocks and round edges on the worksheet: what goes with a choice goes as one step, and comes back.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, test } from "node:test";
import { launch } from "./browser.mjs";
import { DEMO, folder } from "./command.mjs";
import { WIDTHS, Worksheet, visitor } from "./worksheet.mjs";

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

/** A plan of the demo with its drawings, as a file that the page opens. */
function sheetOf(name) {
  const plan = JSON.parse(readFileSync(join(DEMO, `${name}.json`), "utf8"));
  const drawings = {};
  const bring = (below) => {
    for (const [key, own] of Object.entries(below)) {
      if (key === "motif") {
        below[key] = basename(own);
        drawings[below[key]] = readFileSync(join(DEMO, own), "utf8");
      } else if (own && typeof own === "object") bring(own);
    }
  };
  bring(plan);
  const path = join(work.path, `${name}.quilt.json`);
  writeFileSync(path, JSON.stringify({ plan, drawings }));
  return path;
}

async function opened(name, manner = {}) {
  const who = await visitor(browser);
  const sheet = await Worksheet.open(who, manner);
  if (name) {
    await sheet.choose("A sheet to open", sheetOf(name));
    await sheet.changed(`opened ${name}`);
  }
  await sheet.solved();
  return sheet;
}

async function planOf(sheet) {
  await sheet.settled();
  return JSON.parse((await sheet.save()).text).plan;
}

async function leave(sheet) {
  await sheet.close();
  await sheet.who.leave();
}

test("a radius takes the corner designs out as one step, which can be taken back", async () => {
  const sheet = await opened();
  const corner = (await planOf(sheet)).borders[0].corner;
  assert.ok(corner.motif);
  await sheet.write("Radius of the rounded corners", "9 1/2");
  await sheet.solved();
  assert.deepEqual(await sheet.texts(".cards h3"), ["For the border"]);
  let plan = await planOf(sheet);
  assert.equal(plan.quilt.rounding, "9 1/2");
  assert.equal(plan.borders[0].corner, undefined);
  assert.equal(await sheet.page.$$eval("svg.live .ring", (all) => all.length), 1);
  // Its measures leave the radius alone, and scallops along it.
  await sheet.write("Number of scallops", "40");
  await sheet.write("Top edge", "70");
  plan = await planOf(sheet);
  assert.equal(plan.quilt.rounding, "9 1/2");
  assert.deepEqual(plan.quilt.scallops, { count: 40, depth: "1" });
  await sheet.press("Take back");
  await sheet.press("Take back");
  await sheet.press("Take back");
  assert.deepEqual((await planOf(sheet)).borders[0].corner, corner);
  await leave(sheet);
});

test("on point has no sashes, and they come back with straight blocks taken back", async () => {
  const sheet = await opened("sashing");
  const { sashing } = (await planOf(sheet)).blocks;
  await sheet.write("Side of a block", "");
  await sheet.take("on point");
  await sheet.solved();
  const plan = await planOf(sheet);
  assert.equal(plan.blocks.setting, "on_point");
  assert.equal(plan.blocks.sashing, undefined);
  assert.ok((await sheet.texts(".cards h3")).includes("For the corner triangles"));
  assert.ok((await sheet.page.$$("svg.live .corner_triangle")).length === 4);
  await sheet.take("left plain");
  await sheet.solved();
  assert.equal((await sheet.page.$$("svg.live .corner_triangle")).length, 0);
  await sheet.press("Take back");
  await sheet.press("Take back");
  assert.deepEqual((await planOf(sheet)).blocks.sashing, sashing);
  await leave(sheet);
});

test("rows and columns have sizes of their own, as many as there are", async () => {
  const sheet = await opened("sashing");
  const each = await sheet.page.waitForSelector("input[name=sizes]:not(:checked)");
  await sheet.reach((await each.evaluateHandle((own) => own.closest("label"))).asElement());
  await sheet.changed("rows and columns each their own");
  await sheet.write("Row 2, how high", "8");
  await sheet.write("Rows of blocks", "6");
  await sheet.solved();
  const { size } = (await planOf(sheet)).blocks;
  assert.deepEqual(size, { heights: ["12", "8", "12", "12", "12", "12"], widths: ["12", "12", "12", "12"] });
  await sheet.write("Row 6, how high", "2 1/");
  await sheet.page.waitForSelector(".field.wrong");
  assert.deepEqual(await sheet.texts(".field.wrong .hint"), ["Write it as 64 1/4 or 64.25"]);
  await leave(sheet);
});

test("blocks need no border, and cards are as many as kinds", async () => {
  const sheet = await opened("sashing");
  await sheet.press("Take this border out");
  await sheet.solved();
  const plan = await planOf(sheet);
  assert.deepEqual(plan.borders, []);
  assert.deepEqual(await sheet.texts(".cards h3"), ["For the blocks", "For the sashes", "For the cornerstones"]);
  assert.equal((await sheet.page.$$("svg.live .block")).length, 20);
  assert.equal((await sheet.page.$$(".chart, .ruler")).length, 0);
  await leave(sheet);
});

test("what is no number of rows says how to write it", async () => {
  const sheet = await opened("sashing");
  const rows = await sheet.the("textbox", "Rows of blocks");
  await rows.click();
  await sheet.page.keyboard.press("ArrowUp");
  await sheet.solved();
  assert.equal(await sheet.written("Rows of blocks"), "6");
  await sheet.write("Rows of blocks", "many");
  await sheet.page.waitForSelector(".field.wrong");
  assert.deepEqual(await sheet.texts(".field.wrong .hint"), ["Write a whole number, such as 5"]);
  await leave(sheet);
});

for (const name of ["round", "rounded", "on-point", "sashing"]) {
  test(`${name} is whole at every width`, async () => {
    const sheet = await opened(name);
    for (const [at, width] of WIDTHS.entries()) {
      await sheet.page.setViewport({ width, height: 900 });
      await sheet.page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: at % 2 ? "dark" : "light" }]);
      await sheet.solved();
      await sheet.clean(`${name} at ${width} px`);
    }
    await leave(sheet);
  });
}
