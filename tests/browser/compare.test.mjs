// Plans side by side in a real browser: every number that of the plan's result.json, in columns, and
// two or three on one sheet of paper.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { checkedPrints, launch, open, show } from "./browser.mjs";
import { DEMO, folder, quiltpath } from "./command.mjs";
import { pages, words } from "./paper.mjs";

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

const PAPERS = ["letter", "a4"];

/** The page of these plans of the demo. */
function compared(name, ...plans) {
  const page = join(work.path, `${name}.html`);
  quiltpath("compare", ...plans, "--out", page);
  return page;
}

const demo = (name) => join(DEMO, `${name}.json`);

test("two or three plans print on one sheet of either paper, with a box to tick for each", async () => {
  for (const plans of [["plan", "mitred"], ["plan", "mitred", "bent"], ["out-of-square", "two-sided", "wavy"]]) {
    const page = compared(plans.join("-"), ...plans.map(demo));
    for (const [at, pdf] of (await checkedPrints(browser, page, PAPERS)).entries()) {
      const place = `${plans.join(", ")} on ${PAPERS[at]}`;
      const printed = pages(pdf);
      assert.equal(printed.length, 1, place);
      const [width, height] = printed[0].size;
      assert.ok(width > height, `${place} lies sideways`);
      const said = words(pdf).join(" ");
      assert.ok(said.includes("Our choice"), place);
    }
  }
});

test("six plans with long names, and one of another unit, stay within screen and paper", async () => {
  const plan = JSON.parse(readFileSync(demo("plan"), "utf8"));
  plan.unit = "mm";
  plan.title = `A long name & <b>${"Harbour-Garden".repeat(9)}</b>`;
  plan.customer = "Another customer of ours, invented like the first";
  plan.quilt = { width: 1632, height: 2032 };
  plan.borders[0] = { ...plan.borders[0], width: 152, seam_gap: 6, edge_gap: 12 };
  for (const own of ["corner", "side"]) plan.borders[0][own].motif = join(DEMO, plan.borders[0][own].motif);
  plan.machine = { throat: 400 };
  const metric = join(work.path, "metric.json");
  writeFileSync(metric, JSON.stringify(plan));
  const page = compared("six", metric, ...["plan", "mitred", "bent", "block", "hexagon"].map(demo));
  await checkedPrints(browser, page, PAPERS);
});

test("every figure stands in its plan's column on a laptop and on a phone", async () => {
  const file = compared("columns", demo("plan"), demo("mitred"), demo("bent"));
  const { page } = await open(browser, file);
  for (const screen of ["laptop", "phone"]) {
    await show(page, screen, "light");
    const lefts = await page.$$eval("tbody tr:not(.choice)", (rows) =>
      rows.map((row) => [...row.querySelectorAll("td")].map((cell) => Math.round(cell.getBoundingClientRect().left))),
    );
    assert.ok(lefts.length > 9);
    for (const row of lefts) assert.deepEqual(row, lefts[0], screen);
    assert.ok(lefts[0][0] < lefts[0][1] && lefts[0][1] < lefts[0][2]);
  }
  await page.close();
});
