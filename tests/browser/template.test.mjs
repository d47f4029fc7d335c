// The template of a piece in a real browser: opened, checked, printed, and measured on paper.

import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { checkedPrint, launch } from "./browser.mjs";
import { DEMO, folder, quiltpath } from "./command.mjs";
import { extent, letters, pages } from "./paper.mjs";

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

/** A template of this piece, checked and printed: its pages. */
async function printed(piece, paper) {
  const page = join(work.path, "template.html");
  quiltpath("template", piece, "--paper", paper, "--out", page, "--force");
  return pages(await checkedPrint(browser, page));
}

/** A piece through these points. */
function piece(unit, points) {
  const file = join(work.path, "piece.json");
  writeFileSync(file, JSON.stringify({ unit, points }));
  return file;
}

function near(found, wanted, tolerance, what) {
  assert.ok(Math.abs(found - wanted) <= tolerance, `${what}: ${found} mm for ${wanted} mm`);
}

/** The sides of the squares on a page, from the smallest: boxes of four straight lines. */
function squares(page) {
  const boxes = page.strokes.filter(
    (stroke) => stroke.closed && !stroke.curved && stroke.points.length === 5,
  );
  const sides = boxes.map((stroke) => extent(stroke.box));
  return sides
    .filter(([width, height]) => Math.abs(width - height) < 0.05 && width > 20)
    .map(([width]) => width)
    .sort((a, b) => a - b);
}

/** The drawn line of the piece: strokes of half a millimetre, but for the small arrows. */
function ink(page) {
  return page.strokes.filter(
    (stroke) => Math.abs(stroke.width - 0.5) < 0.01 && Math.max(...extent(stroke.box)) > 6,
  );
}

/** The middles of the round marks, from the top left. */
function marks(page) {
  const rings = page.strokes.filter((stroke) => stroke.curved && Math.abs(stroke.width - 0.2) < 0.01);
  const middles = rings.map(({ box: [left, top, right, bottom] }) => [
    (left + right) / 2,
    (top + bottom) / 2,
  ]);
  return middles.sort((a, b) => a[1] - b[1] || a[0] - b[0]);
}

// Paper as in ISO 216 and ANSI/ASME Y14.1; a browser may round it to a CSS pixel (0.26 mm).
const PAPERS = { letter: [215.9, 279.4], a4: [210, 297] };

for (const [paper, size] of Object.entries(PAPERS)) {
  test(`the squares measure 25.4 and 25 mm on ${paper}`, async () => {
    const all = await printed(join(DEMO, "corner.svg"), paper);
    assert.equal(all.length, 1 + 3);
    for (const page of all) {
      near(page.size[0], size[0], 0.3, "the paper's width");
      near(page.size[1], size[1], 0.3, "the paper's height");
    }
    const [metric, inch, ...more] = squares(all[0]);
    near(metric, 25, 0.1, "the metric square");
    near(inch, 25.4, 0.1, "the inch square");
    assert.deepEqual(more, []);
  });
}

test("a piece on one sheet has its true size on paper, whichever way the paper is turned", async () => {
  for (const [width, height] of [
    [6, 9],
    [9, 6],
  ]) {
    const points = [[0, 0], [width, 0], [width, height], [0.5, height]];
    const all = await printed(piece("in", points), "letter");
    assert.equal(all.length, 2);
    assert.equal(all[1].size[0] > all[1].size[1], width > height);
    const lines = ink(all[1]);
    assert.equal(lines.length, 1);
    const [wide, high] = extent(lines[0].box);
    near(wide, width * 25.4, 0.1, "the width");
    near(high, height * 25.4, 0.1, "the height");
    const [metric, inch] = squares(all[0]);
    near(metric, 25, 0.1, "the metric square");
    near(inch, 25.4, 0.1, "the inch square");
  }
});

test("the line goes on where two sheets are laid together on their marks", async () => {
  // A straight line down over 2 x 2 sheets and back up to the left, so that each has a part.
  const points = [[0, 0], [300, 400], [300, 0], [0, 400]];
  const all = await printed(piece("mm", points), "a4");
  assert.equal(all.length, 1 + 4);
  const [a1, a2, b1, b2] = all.slice(1);
  const step = (one, other) => [one[0] - other[0], one[1] - other[1]];
  // Marks of a sheet from the top: two on its upper seam, two beside, two on its lower seam.
  const right = marks(a1).filter(([x]) => x > 150).slice(0, 2);
  const left = marks(a2).filter(([x]) => x < 50).slice(0, 2);
  const aside = step(right[0], left[0]);
  near(step(right[1], left[1])[0], aside[0], 0.05, "the second mark, across");
  near(step(right[1], left[1])[1], aside[1], 0.05, "the second mark, down");
  const low = marks(a1).slice(-2);
  const high = marks(b1).slice(0, 2);
  const down = step(low[0], high[0]);
  near(step(low[1], high[1])[1], down[1], 0.05, "the second mark, down");

  // On one plane now: all ends of all parts lie on the three lines that were asked for.
  const placed = [
    [a1, [0, 0]],
    [a2, aside],
    [b1, down],
    [b2, [aside[0] + down[0], aside[1] + down[1]]],
  ];
  const ends = placed.flatMap(([page, [x, y]]) =>
    ink(page).flatMap(({ points: line }) => line.map(([px, py]) => [px + x, py + y])),
  );
  const least = (axis) => Math.min(...ends.map((point) => point[axis]));
  const most = (axis) => Math.max(...ends.map((point) => point[axis]));
  near(most(0) - least(0), 300, 0.1, "the width of all sheets together");
  near(most(1) - least(1), 400, 0.1, "the height of all sheets together");
  for (const end of ends) {
    const [x, y] = [end[0] - least(0), end[1] - least(1)];
    const offs = points.slice(1).map(([bx, by], at) => {
      const [ax, ay] = points[at];
      return Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
    });
    near(Math.min(...offs), 0, 0.1, `the way from (${x}, ${y}) to the line`);
  }
});

test("a piece over many sheets is checked all the same", async () => {
  const points = [];
  for (let at = 0; at <= 400; at++) {
    points.push([at * 5, 60 * Math.sin(at / 9) + 60 * Math.sin(at / 31)]);
  }
  const all = await printed(piece("mm", points), "letter");
  assert.ok(all.length > 8, `${all.length} pages`);
  const [metric, inch] = squares(all[0]);
  near(metric, 25, 0.1, "the metric square");
  near(inch, 25.4, 0.1, "the inch square");
});

test("letters of a template have nine points or more, those of fractions and of many sheets too", async () => {
  const out = join(work.path, "planned");
  quiltpath("plan", join(DEMO, "plan.json"), "--out", out);
  const far = piece("in", Array.from({ length: 200 }, (_, at) => [at / 3, 40 + 40 * Math.sin(at)]));
  for (const file of [join(out, "pieces", "01-border-corner-top-left.svg"), far]) {
    const page = join(work.path, "template.html");
    quiltpath("template", file, "--paper", "letter", "--out", page, "--force");
    const all = letters(await checkedPrint(browser, page));
    assert.deepEqual(all.filter(([size]) => size < 9), []);
    assert.ok(all.length > 30);
  }
});
