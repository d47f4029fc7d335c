// How fast the worksheet is: from a key to the new picture, from the file to the first view, and how
// large the page is when it is packed.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, test } from "node:test";
import { gzipSync } from "node:zlib";
import { launchAsIs, open } from "./browser.mjs";
import { ROOT, folder } from "./command.mjs";
import { PAGE, Worksheet, visitor } from "./worksheet.mjs";

let browser;

before(async () => {
  browser = await launchAsIs();
});

after(() => browser?.close());

/** The value that this share of all is at or below. */
function share(values, of) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(of * sorted.length) - 1)];
}

/** What other programs take from the machine is none of the page's: so many rounds, the best counts. */
const ROUNDS = 3;

/** Has the page note when it asks its worker for a picture, and when it has the answer. */
function noteTurns(page) {
  return page.evaluateOnNewDocument(() => {
    const Plain = Worker;
    globalThis.Worker = class extends Plain {
      constructor(...given) {
        super(...given);
        this.addEventListener("message", (event) => {
          const heard = performance.now();
          if (event.data.type === "seen") globalThis.heard = heard;
        });
      }
      postMessage(message, ...rest) {
        if (message.type === "solve") globalThis.asked = performance.now();
        super.postMessage(message, ...rest);
      }
    };
  });
}

/** Milliseconds from each of some keys in a field to the picture that follows from it, all of them
 * and those of the page itself, without its worker. */
async function edits(count, file) {
  const who = await visitor(browser);
  const sheet = await Worksheet.open(who, { prepare: noteTurns });
  if (file) {
    await sheet.choose("A sheet to open", file);
    await sheet.changed("opened");
  }
  await sheet.settled();
  await sheet.page.evaluate(() => {
    globalThis.took = [];
    let pressed = null;
    addEventListener("keydown", (event) => (pressed ??= event.timeStamp), true);
    new MutationObserver(() => {
      if (pressed === null) return;
      const whole = performance.now() - pressed;
      globalThis.took.push({ whole, own: whole - (globalThis.heard - globalThis.asked) });
      pressed = null;
    }).observe(document.querySelector("svg.live"), { childList: true, subtree: true, attributes: true });
  });
  const field = await sheet.the("textbox", "Top edge");
  await field.focus();
  for (let edit = 0; edit < count; edit += 1) {
    await sheet.page.keyboard.press(edit % 8 < 4 ? "ArrowUp" : "ArrowDown");
    await sheet.page.waitForFunction((count) => globalThis.took.length > count, { polling: 5 }, edit);
    await sheet.solved();
  }
  const took = await sheet.page.evaluate(() => globalThis.took);
  assert.equal(took.length, count);
  await who.leave();
  const [all, own] = [took.map(({ whole }) => whole), took.map(({ own }) => own)];
  const [middle, worst, page] = [share(all, 0.5), share(all, 0.95), share(own, 0.5)];
  const said = `${middle.toFixed(0)} ms at the middle of ${count} edits, ${page.toFixed(0)} of them the page's own, ${worst.toFixed(0)} ms at the worst 5 %`;
  return { middle, worst, page, said };
}

test("from a key to the new picture", async (t) => {
  let held = false;
  for (let round = 0; round < ROUNDS && !held; round += 1) {
    const { middle, worst, said } = await edits(100);
    t.diagnostic(said);
    held = middle <= 50 && worst <= 120;
  }
  assert.ok(held, "more than 50 ms at the middle, or 120 ms at the worst 5 %");
});

/** A border round 12 x 12 blocks with sashing: some 500 pieces. */
function manyBlocks() {
  const fixtures = join(ROOT, "fixtures");
  const own = ["demo/corner", "demo/border", "demo/block", "motifs/ribbon", "motifs/knot"].map((name) => `${name}.svg`);
  const drawings = Object.fromEntries(own.map((name) => [basename(name), readFileSync(join(fixtures, name), "utf8")]));
  const design = (name) => ({ motif: `${name}.svg` });
  const plan = {
    unit: "in",
    quilt: { width: "100", height: "100" },
    borders: [{ width: "6", corner: { style: "leg", ...design("corner") }, side: design("border") }],
    blocks: {
      rows: 12,
      columns: 12,
      block: design("block"),
      sashing: { width: "1 1/2", side: design("ribbon"), cornerstone: design("knot") },
    },
  };
  return JSON.stringify({ plan, drawings });
}

test("the same with 500 pieces, as far as it is the page's own", async (t) => {
  const place = folder();
  const file = join(place.path, "many.quilt.json");
  writeFileSync(file, manyBlocks());
  let held = false;
  for (let round = 0; round < ROUNDS && !held; round += 1) {
    const { page, said } = await edits(30, file);
    t.diagnostic(said);
    held = page <= 50;
  }
  place.remove();
  assert.ok(held, "more than 50 ms of the page's own at the middle");
});

test("first view", async (t) => {
  const took = [];
  for (let visit = 0; visit < 2 * ROUNDS; visit += 1) {
    const who = await visitor(browser);
    const { page } = await open(who.context, PAGE);
    await page.waitForSelector("svg.live path");
    took.push(await page.evaluate(() => performance.now()));
    await who.leave();
  }
  const best = share(took, 0);
  t.diagnostic(`${best.toFixed(0)} ms at best, ${share(took, 0.5).toFixed(0)} ms at the middle`);
  assert.ok(best <= 1000, `${took.map(Math.round)} ms`);
});

test("the page packed", (t) => {
  const size = gzipSync(readFileSync(PAGE), { level: 9 }).length;
  t.diagnostic(`${size} bytes`);
  assert.ok(size <= 1.5e6, `${size} bytes`);
});
