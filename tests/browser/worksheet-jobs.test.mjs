// Jobs done with the worksheet from start to end, by mouse, by touch and by keyboard alone; each
// ends in files equal to those that the command writes of the sheet that was saved.

import assert from "node:assert/strict";
import { basename, join } from "node:path";
import { after, before, test } from "node:test";
import { unpacked } from "./archive.mjs";
import { launch } from "./browser.mjs";
import { DEMO, ROOT, folder, quiltpath } from "./command.mjs";
import { filesBelow } from "./equal.mjs";
import { equalFiles, folderOf, sameFiles } from "./worksheet-files.mjs";
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

/** A job by a visitor who has never been here; `does` returns what else is to hold at the end. */
function job(name, manner, does) {
  const said = `${manner.width} px, ${manner.scheme}, ${manner.way}`;
  test(`${name} (${said})`, async () => {
    const who = await visitor(browser);
    const sheet = await Worksheet.open(who, manner);
    const holds = await does(sheet);
    await sheet.settled();
    await sheet.clean(name);
    const { plan, result } = await equalFiles(sheet, work.path, name.replaceAll(/\W+/g, "-"));
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
    assert.equal(result.bands[0].depth, 5.5);
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
    assert.equal(result.bands[0].depth, 10.5);
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

job("two sides with a spacer, and a motif in the middle of them", { width: 820, scheme: "light", way: "mouse" }, async (sheet) => {
  await sheet.write("Top edge", "48");
  await sheet.write("Left edge", "24");
  await sheet.take("left open");
  await sheet.take("top and bottom");
  await draw(sheet, SIDES, join(MOTIFS, "vine.svg"));
  await sheet.take("what is left over, nothing stretched");
  await sheet.settled();
  const { files } = await sheet.saveAll();
  const result = JSON.parse(files.get("result.json"));
  const sides = result.pieces.filter((piece) => piece.kind === "side");
  assert.deepEqual(sides.map((side) => side.side), ["top", "bottom"]);
  for (const side of sides) {
    assert.ok(Math.abs(side.stretch - 1) < 1e-9 && side.repeats % 2 === 0);
    assert.ok(Math.abs(side.repeats * side.advance + side.middle.spacer - side.span) < 1e-9);
  }
  // Then a heart between two spacers of a given length.
  await sheet.take("so much:");
  await sheet.write("Plain length in the middle of each side", "3/4");
  const field = await sheet.page.waitForSelector('::-p-xpath(//label[contains(., "Put a motif in the middle")]/input)');
  await field.uploadFile(join(MOTIFS, "heart.svg"));
  await sheet.changed("heart.svg");
  await sheet.the("heading", "For the middle of the sides");
  return (plan, after) => {
    assert.deepEqual(plan.borders[0].side.centre, { motif: "heart.svg" });
    assert.equal(plan.borders[0].side.spacer, "3/4");
    const both = after.pieces.filter((piece) => piece.kind === "side");
    assert.equal(both.length, 2);
    for (const side of both) assert.ok(side.middle.spacer === 0.75 && side.middle.centre > 3);
  };
});

/** How far down a pass reaches in the jobs at the frame. */
const THROAT = "16";

/** Opens a pass of the demo in several. */
async function openPass(sheet, pass) {
  await sheet.write("How far down a pass reaches", THROAT);
  await sheet.settled();
  await sheet.press(`Pass ${pass}`);
  await sheet.the("article", `Pass ${pass}`);
}

/** A number in eighths as it is written, and as the keys of the pad that write it. */
function eighths(value) {
  const [whole, over] = [Math.floor(value), Math.round((value % 1) * 8)];
  const fraction = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"][over];
  const keys = [...(whole || !fraction ? String(whole) : ""), ...(fraction ? [fraction] : [])];
  return { text: [whole || !fraction ? whole : "", fraction].join(" ").trim(), keys };
}

job("a pass laid by four readings", { width: 820, scheme: "dark", way: "touch" }, async (sheet) => {
  await openPass(sheet, 2);
  const expected = await sheet.page.$$eval("[data-cell]", (all) => all.slice(0, 8).map((own) => [own.dataset.cell, own.placeholder]));
  const given = [];
  const cell = await sheet.the("textbox", "A, across");
  await sheet.reach(cell);
  for (const [at, [name, placeholder]] of expected.entries()) {
    assert.equal(await sheet.page.evaluate(() => document.activeElement.dataset.cell), name);
    const [, whole = 0, over = 0, under = 1] = /^(\d+)?\s?(?:(\d+)\/(\d+))?$/.exec(placeholder);
    // The cloth lies half an inch further across and a quarter further down, read to an eighth.
    const { text, keys } = eighths(Math.round(8 * (Number(whole) + over / under + (at % 2 ? 1 / 4 : 1 / 2))) / 8);
    for (const key of keys) await sheet.press(key);
    assert.equal(await sheet.page.evaluate(() => document.activeElement.value), text);
    given.push(text);
    await sheet.press("next");
  }
  assert.ok(given.some((text) => text.includes("/")), `no fraction in ${given}`);
  await sheet.page.waitForFunction(() => document.querySelectorAll("td.off .bar").length === 4);
  assert.match((await sheet.texts(".laid-of > p"))[0], /^The cloth lies /);
  assert.equal((await sheet.texts(".laid-picture svg")).length, 1);
  await sheet.settled();
  const saved = await sheet.save();
  await sheet.tick("laid-of", "G-code");
  await sheet.tick("laid-of", "JSON");
  const { name, bytes } = await sheet.saved(() => sheet.press("Save pass 2 as laid"));
  assert.equal(name, "pass-02-laid.zip");
  const own = new Map([...unpacked(bytes)].map(([file, text]) => [file.replace(/^laid\/02\//, ""), text]));
  const laid = (folder, readings) => {
    quiltpath("align", folder, "--pass", "2", "--format", "gcode", ...readings);
    return filesBelow(join(folder, "laid/02"));
  };
  // By what the sheet has of the readings, and by those that were typed.
  sameFiles(own, laid(folderOf(work.path, saved, "laid"), []));
  const { progress: _, ...unread } = JSON.parse(saved.text);
  const marks = [0, 1, 2, 3].map((at) => `${expected[2 * at][0][0]} ${given[2 * at]}, ${given[2 * at + 1]}`);
  const typed = folderOf(work.path, { ...saved, text: JSON.stringify(unread) }, "typed");
  sameFiles(own, laid(typed, marks.flatMap((mark) => ["--reading", mark])));
});

job("taken up again after the thread broke", { width: 390, scheme: "light", way: "keyboard" }, async (sheet) => {
  await openPass(sheet, 2);
  await sheet.unfold("Thread broken, or bobbin empty? Go on from there");
  await sheet.take("2");
  await sheet.take("by the line");
  await sheet.write("how much was stitched", "60 1/2");
  await sheet.write("how much earlier to begin", "3/4");
  await sheet.tick("broke-of", "JSON");
  const { bytes } = await sheet.saved(() => sheet.press("Save the rest of run 2"));
  await sheet.page.waitForFunction(() => document.querySelector(".broke-of").textContent.includes("The rest begins 3/4 in before that"));
  await sheet.settled();
  const folder = folderOf(work.path, await sheet.save(), "broken");
  quiltpath("resume", folder, "--pass", "2", "--run", "2", "--after", "60 1/2 in", "--back", "3/4 in");
  const rest = filesBelow(join(folder, "rest"));
  sameFiles(unpacked(bytes), new Map([...rest].map(([file, text]) => [`rest/${file}`, text])));
  return (plan) => assert.equal(plan.machine.throat, THROAT);
});

job("a runner with a border on two sides", { width: 390, scheme: "dark", way: "mouse" }, async (sheet) => {
  await sheet.take("left open");
  await sheet.take("top and bottom");
  return (plan, result) => {
    assert.deepEqual(plan.borders[0].side.motif, { top: "border.svg", bottom: "border.svg" });
    assert.deepEqual(result.pieces.map((piece) => piece.name), ["border-side-top", "border-side-bottom"]);
  };
});

job("a photo of a drawing", { width: 820, scheme: "light", way: "touch" }, async (sheet) => {
  await sheet.draw(SIDES, join(MOTIFS, "on-paper.png"));
  await sheet.press("Take it");
  await sheet.changed("on-paper.svg");
  return (plan) => assert.equal(plan.borders[0].side.motif, "on-paper.svg");
});

/** Begins an empty sheet with a border of this width. */
async function startEmpty(sheet, width) {
  await sheet.more();
  await sheet.press("an empty sheet");
  await sheet.changed("started empty");
  await sheet.press("Add a border");
  await sheet.write("Width of border", width);
}

job("a round cloth with scallops", { width: 820, scheme: "light", way: "keyboard" }, async (sheet) => {
  await startEmpty(sheet, "6");
  await sheet.take("its diameter: a circle");
  await sheet.write("Diameter", "44 1/2");
  await draw(sheet, "For the border", join(MOTIFS, "vine.svg"));
  await sheet.write("How many repeats go round", "20");
  await sheet.write("Number of scallops", "20");
  await sheet.write("Depth of the scallops", "3/4");
  assert.deepEqual(await sheet.texts(".cards h3"), ["For the border"]);
  await sheet.press("Add a border inside");
  await sheet.write("Width of border 2", "4");
  return (plan, result) => {
    assert.deepEqual(plan.quilt, { circle: { diameter: "44 1/2" }, scallops: { count: 20, depth: "3/4" } });
    assert.ok(plan.borders.every((border) => border.corner === undefined));
    assert.deepEqual(result.pieces.map((piece) => piece.name), ["border-1-ring-round", "border-2-ring-round"]);
    assert.deepEqual([result.pieces[0].repeats, result.pieces[0].scallops], [20, 20]);
  };
});

job("blocks with sashing inside a border", { width: 390, scheme: "dark", way: "touch" }, async (sheet) => {
  await startEmpty(sheet, "6");
  await sheet.write("Top edge", "70");
  await sheet.write("Left edge", "84");
  await sheet.take("an L");
  await draw(sheet, CORNERS, join(DEMO, "corner.svg"));
  await draw(sheet, SIDES, join(DEMO, "border.svg"));
  await sheet.press("Add blocks inside");
  await sheet.write("Rows of blocks", "5");
  await sheet.write("Columns of blocks", "4");
  await sheet.write("Side of a block", "12");
  await sheet.take("and round them");
  await sheet.write("Width of the sashes", "2");
  await draw(sheet, "For the blocks", join(DEMO, "block.svg"));
  await draw(sheet, "For the sashes", join(MOTIFS, "ribbon.svg"));
  await draw(sheet, "For the cornerstones", join(MOTIFS, "knot.svg"));
  await sheet.take("turned on, four by four");
  await sheet.solved();
  const pictures = await sheet.texts(".cards article:has(.motif) h3");
  assert.deepEqual(pictures, [CORNERS, SIDES, "For the blocks", "For the sashes", "For the cornerstones"]);
  return (plan, result) => {
    const { sashing, ...blocks } = plan.blocks;
    assert.deepEqual(blocks, { rows: 5, columns: 4, size: "12", block: { motif: "block.svg" }, lie: "pinwheel" });
    assert.equal(sashing.width, "2");
    assert.ok(sashing.outer);
    const places = result.pieces.filter((piece) => piece.place).map((piece) => piece.place);
    assert.equal(places.filter((place) => place.startsWith("block")).length, 20);
    assert.equal(places.filter((place) => place.startsWith("cornerstone")).length, 30);
    assert.ok(places.includes("sash r3 c2-c3"), places);
  };
});
