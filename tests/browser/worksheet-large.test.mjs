// The worksheet with what is large: a drawing of 20 MB, a photo of twelve million pixels, a thousand
// findings, forty passes. The page answers all the while, and says what it can't take.

import assert from "node:assert/strict";
import { statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { deflateSync } from "node:zlib";
import { launchAsIs } from "./browser.mjs";
import { folder } from "./command.mjs";
import { Worksheet, visitor } from "./worksheet.mjs";

let browser;
let work;

before(async () => {
  browser = await launchAsIs();
  work = folder();
});

after(async () => {
  await browser?.close();
  work?.remove();
});

/** Longer than this nobody waits for an answer, in milliseconds. */
const ANSWERS = 1000;
const SIDES = "For the sides";

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

/** Asks the page something again and again until `done`; the longest that it took to answer. */
async function answers(sheet, done) {
  let longest = 0;
  let over = false;
  const asked = done.finally(() => {
    over = true;
  });
  while (!over) {
    const began = performance.now();
    await sheet.page.evaluate(() => new Promise((answer) => setTimeout(answer)));
    longest = Math.max(longest, performance.now() - began);
    await new Promise((rest) => setTimeout(rest, 20));
  }
  await asked;
  return longest;
}

/** A drawing of one line, 6 by 3 inches, in a file. */
function drawing(name, d) {
  const file = join(work.path, name);
  writeFileSync(
    file,
    `<svg xmlns="http://www.w3.org/2000/svg" width="6in" height="3in" viewBox="0 0 600 300" fill="none" stroke="black"><path d="${d}"/></svg>`,
  );
  return file;
}

visit("a drawing of 20 MB", async (sheet) => {
  const points = Array.from({ length: 1_050_000 }, (_, at) => {
    const share = (at + 1) / 1_050_001;
    return `L${(600 * share).toFixed(5)} ${(150 + 100 * Math.sin(share * 50)).toFixed(4)}`;
  });
  const file = drawing("large.svg", `M0 150 ${points.join(" ")} L600 150`);
  assert.ok(statSync(file).size > 20e6);
  const longest = await answers(
    sheet,
    (async () => {
      await sheet.draw(SIDES, file);
      await sheet.changed("large.svg");
      await sheet.solved();
    })(),
  );
  assert.ok(longest < ANSWERS, `${longest} ms`);
  // Twelve repeats of it are more than a plan may have, and what would be is said.
  assert.match((await sheet.texts("#result [role=status]")).join(" "), /points .* accepted/);
  const { JSHeapUsedSize: heap } = await sheet.page.metrics();
  assert.ok(heap < 300e6, `${heap} bytes`);
  await sheet.press("Take back");
  await sheet.solved();
  assert.deepEqual(await sheet.texts("#result [role=status]"), []);
});

visit("a drawing that is larger than any is refused by its size", async (sheet) => {
  const file = drawing("vast.svg", `M0 150 ${"L300 150 ".repeat(8e6)}`);
  await sheet.draw(SIDES, file);
  await sheet.page.waitForFunction(() => document.querySelector("#designs").textContent.includes("A drawing may be 64 MB"));
  await sheet.settled();
});

/** A line with so many small loops, each of which is found. */
function loops(name, many) {
  const each = Array.from({ length: many }, (_, at) => {
    const [x, y] = [((at + 0.5) * 600) / many, 150 + 100 * Math.sin(at * 2.4)];
    return `L${x.toFixed(2)} ${y.toFixed(2)} l3 3 l-3 3 l-3 -3 l3 -3`;
  });
  return drawing(name, `M0 150 ${each.join(" ")} L600 150`);
}

// A check tells no more than a thousand places, so three times as many loops are few more findings.
for (const many of [200, 600]) {
  visit(
    `a thousand findings, of ${many} loops in each repeat`,
    async (sheet) => {
      await sheet.draw(SIDES, loops(`loops-${many}.svg`, many));
      await sheet.changed(`loops-${many}.svg`);
      await sheet.settled();
      const found = await sheet.page.$eval("nav", (own) => Number(/(\d+) to look at/.exec(own.textContent)?.[1]));
      assert.ok(found >= 1000, `${found} found`);
      // However many there are, a line of its own has each kind alone.
      const kinds = (await sheet.texts(".sort")).length;
      assert.ok(kinds > 0 && kinds < 20, `${kinds} kinds`);
      for (const button of await sheet.page.$$("::-p-xpath(//button[starts-with(., 'Show all')])")) await button.click();
      await sheet.clean("a thousand findings");
      await sheet.write("Top edge", "66");
      const longest = await answers(sheet, sheet.settled());
      assert.ok(longest < ANSWERS, `${longest} ms`);
    },
    { width: 390 },
  );
}

visit("forty passes", async (sheet) => {
  await sheet.write("Left edge", "120");
  await sheet.write("How far down a pass reaches", "3 1/2");
  await sheet.settled();
  const passes = await sheet.page.$eval("nav", (own) => Number(/(\d+) passes/.exec(own.textContent)?.[1]));
  assert.ok(passes >= 40, `${passes} passes`);
  await sheet.clean("forty passes");
});

/** The check of a chunk of a PNG (PNG Specification, third edition, annex D). */
function crc32(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}

/** A grey picture as a PNG (PNG Specification, third edition), each row unfiltered. */
function png(width, height, grey) {
  const rows = Buffer.alloc((width + 1) * height);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) rows[y * (width + 1) + 1 + x] = grey(x, y);
  }
  const chunk = (name, data) => {
    const body = Buffer.concat([Buffer.from(name, "latin1"), data]);
    const [size, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    size.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([size, body, check]);
  };
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header[8] = 8;
  return Buffer.concat([
    Buffer.from("\x89PNG\r\n\x1a\n", "latin1"),
    chunk("IHDR", header),
    chunk("IDAT", deflateSync(rows, { level: 1 })),
    chunk("IEND", Buffer.alloc(0)),
  ]);
}

visit("a photo of twelve million pixels", async (sheet) => {
  const middle = (x) => 1500 + 700 * Math.sin((2 * Math.PI * (x - 300)) / 3400);
  const line = (x, y) => x >= 300 && x < 3700 && Math.abs(y - middle(x)) < 16;
  const file = join(work.path, "large-photo.png");
  writeFileSync(file, png(4000, 3000, (x, y) => (line(x, y) ? 30 : 235)));
  const took = (async () => {
    await sheet.draw(SIDES, file);
    await sheet.page.waitForSelector("section.photo", { timeout: 120_000 });
  })();
  const longest = await answers(sheet, took);
  assert.ok(longest < ANSWERS, `${longest} ms`);
  const wide = await sheet.the("textbox", "How wide is the drawing? in");
  await wide.type("6");
  await sheet.press("Read it at this size");
  await sheet.page.waitForFunction(() => !document.querySelector("section.photo form"), { timeout: 120_000 });
  await sheet.press("Take it");
  await sheet.changed("large-photo.svg");
  await sheet.settled();
  assert.deepEqual(await sheet.texts("#result [role=status]"), []);
});
