// Where a drawing's line starts and ends, on the cards of the worksheet: dragged on the picture by
// mouse, finger and keys, written as lengths, swapped, and left to be found again. What is saved
// says it, and the command makes the same of it.

import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { launch } from "./browser.mjs";
import { DEMO, folder } from "./command.mjs";
import { equalFiles } from "./worksheet-files.mjs";
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

/** A test with the example on the page of a new visitor. */
function visit(name, does, manner) {
  test(name, async () => {
    const who = await visitor(browser);
    const sheet = await Worksheet.open(who, manner);
    await sheet.settled();
    await does(sheet);
    await sheet.close();
    await who.leave();
  });
}

const CORNER = "the corner design";
const SIDES = "the design for the sides";

/** The handle of an end. */
const handleOf = (sheet, which, design) => sheet.the("button", `${which} of ${design}, drag or use the arrow keys`);

/** The middle of it, on the screen. */
async function middle(sheet, which, design) {
  const handle = await handleOf(sheet, which, design);
  await handle.evaluate((own) => own.scrollIntoView({ block: "center" }));
  const box = await handle.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Drags it by so many pixels, in steps. */
async function drag(sheet, which, design, [right, down]) {
  const [x, y] = await middle(sheet, which, design);
  const { mouse, touchscreen } = sheet.page;
  const steps = [0.3, 0.7, 1].map((share) => [x + share * right, y + share * down]);
  if (sheet.way === "touch") {
    await touchscreen.touchStart(x, y);
    for (const step of steps) await touchscreen.touchMove(...step);
    await touchscreen.touchEnd();
  } else {
    await mouse.move(x, y);
    await mouse.down();
    for (const step of steps) await mouse.move(...step);
    await mouse.up();
  }
  await sheet.settled();
}

/** What is saved of a border's corners and sides. */
async function saved(sheet) {
  await sheet.settled();
  return JSON.parse((await sheet.save()).text).plan.borders[0];
}

/** Waits until the handle of an end lies near a place on the screen, and says how far it came. */
async function moved(sheet, which, design, from) {
  const there = await middle(sheet, which, design);
  return Math.hypot(there[0] - from[0], there[1] - from[1]);
}

const LENGTH = /^-?\d+(?: \d+\/(?:2|4|8|16))?$|^-?\d+\/(?:2|4|8|16)$/;

visit("a start is dragged as one step, written, and left to be found again", async (sheet) => {
  await sheet.take("a block");
  await sheet.draw("For the corners", join(DEMO, "block.svg"));
  await sheet.changed("block.svg for the corners");
  await sheet.settled();
  const from = await middle(sheet, "Start", CORNER);
  assert.equal((await saved(sheet)).corner.start, undefined);
  // The rosette is a closed line from its rightmost place; it starts a quarter of the way round.
  await drag(sheet, "Start", CORNER, [-110, 110]);
  const { corner } = await saved(sheet);
  assert.equal(corner.end, undefined);
  for (const length of corner.start) assert.match(String(length), LENGTH);
  assert.ok((await moved(sheet, "Start", CORNER, from)) > 60);
  assert.equal(await sheet.written("Start of the corner design, across"), String(corner.start[0]));
  await equalFiles(sheet, work.path, "dragged");
  await sheet.press("Take back");
  await sheet.settled();
  assert.equal((await saved(sheet)).corner.start, undefined);
  assert.ok((await moved(sheet, "Start", CORNER, from)) < 2);
  // Written.
  await sheet.write("Start of the corner design, across", "0");
  await sheet.write("Start of the corner design, down", "6");
  assert.deepEqual((await saved(sheet)).corner.start, ["0", "6"]);
  const left = await middle(sheet, "Start", CORNER);
  assert.ok(from[0] - left[0] > 100, `${from} to ${left}`);
  await sheet.clean("a start that is written");
  await equalFiles(sheet, work.path, "written");
  // Swapped with an end that is given, and found by itself again.
  await sheet.write("End of the corner design, across", "12");
  await sheet.press("Swap ends");
  const swapped = (await saved(sheet)).corner;
  assert.deepEqual([swapped.end, swapped.start[0]], [["0", "6"], "12"]);
  await sheet.press("Start of the corner design as found");
  await sheet.press("End of the corner design as found");
  const found = (await saved(sheet)).corner;
  assert.deepEqual([found.start, found.end], [undefined, undefined]);
});

visit("a drag is dropped by Escape, and a start stays at the end of a stroke", async (sheet) => {
  const { mouse, keyboard } = sheet.page;
  const start = await middle(sheet, "Start", CORNER);
  const [x, y] = await middle(sheet, "End", CORNER);
  await mouse.move(x, y);
  await mouse.down();
  await mouse.move(x - 20, y + 20);
  await sheet.changed("end of the corner design");
  await keyboard.press("Escape");
  await mouse.up();
  assert.equal((await saved(sheet)).corner.end, undefined);
  // Where it was drawn to end: met exactly, so that nothing is stitched twice.
  await drag(sheet, "Start", CORNER, [4, 3]);
  const { corner } = await saved(sheet);
  assert.equal(corner.start.length, 2);
  assert.ok((await moved(sheet, "Start", CORNER, start)) < 2);
  const said = await sheet.texts("#designs dd");
  assert.ok(said.includes("Yes, as drawn. Nothing added."), said.join("\n"));
  await sheet.clean("a start at its own place");
});

visit(
  "a finger and the arrow keys move the start of a repeat, which ends across from it",
  async (sheet) => {
    const handle = await handleOf(sheet, "Start", SIDES);
    const box = await handle.evaluate((own) => {
      const { width, height } = getComputedStyle(own, "::before");
      return [width, height].map(Number.parseFloat);
    });
    assert.ok(box.every((size) => size >= 44), `${box}`);
    await drag(sheet, "Start", SIDES, [30, 0]);
    const { side } = await saved(sheet);
    assert.equal(side.start.length, 2);
    assert.equal(side.end, undefined);
    await sheet.press("Take back");
    await sheet.settled();
    await handle.focus();
    await sheet.page.keyboard.press("ArrowRight");
    const stepped = (await saved(sheet)).side.start;
    assert.ok(stepped.every((length) => LENGTH.test(String(length))), `${stepped}`);
    await sheet.clean("a repeat's start");
    await sheet.press("Take back");
    assert.equal((await saved(sheet)).side.start, undefined);
  },
  { width: 390, way: "touch" },
);
