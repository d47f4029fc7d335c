// The placement sheet in a real browser: every number that of result.json, printed, walked through
// by keyboard, zoomed and played.

import assert from "node:assert/strict";
import { readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { checkedPrint, checkedPrints, launch, open, print, show } from "./browser.mjs";
import { DEMO, folder, quiltpath } from "./command.mjs";
import { letters, pages, words } from "./paper.mjs";

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

const WAVE = { motif: join(DEMO, "border.svg") };
const CORNER = { style: "leg", motif: join(DEMO, "corner.svg"), arrangement: "mirrored" };
const border = (more) => ({ width: 6, corner: CORNER, side: WAVE, ...more });

/** A polygon of so many sides, clockwise, in inches. */
function polygon(sides) {
  return Array.from({ length: sides }, (_, at) => {
    const angle = (2 * Math.PI * at) / sides;
    return [60 + 60 * Math.cos(angle), 60 + 60 * Math.sin(angle)].map((v) => Number(v.toFixed(3)));
  });
}

// Plans of our own: what the demo's plans don't have between them.
const PLANS = {
  turned: {
    title: 'Aunt & "Bee\'s" <b>quilt</b> </script>',
    quilt: { width: 64.25, height: 80 },
    machine: { throat: 18, turned: true },
    borders: [border()],
  },
  deep: {
    quilt: { width: 64.25, height: 80 },
    machine: { throat: 9 },
    borders: [border()],
  },
  nested: {
    quilt: { top: 70, right: 80.5, bottom: 71, left: 80, falling: 107 },
    thread: { bobbin: "100 m" },
    borders: [
      border({ name: "outer & <i>first</i>" }),
      border({ name: "inner", width: 4, corner: { style: "open" } }),
    ],
  },
  three: {
    quilt: { width: 64.25, height: 80 },
    borders: ["outer", "middle", "inner"].map((name) => border({ name, corner: { style: "open" } })),
  },
  triangle: { quilt: { corners: polygon(3) }, borders: [border({ corner: { style: "open" } })] },
  twelve: { quilt: { corners: polygon(12) }, borders: [border({ corner: { style: "open" } })] },
};

/** The folder of a plan: one of ours by its name, or one of the demo's files. */
function planned(name) {
  const out = join(work.path, name);
  if (!statSync(out, { throwIfNoEntry: false })) {
    let plan = join(DEMO, `${name}.json`);
    if (PLANS[name]) {
      plan = join(work.path, `${name}.json`);
      writeFileSync(plan, JSON.stringify({ unit: "in", ...PLANS[name] }));
    }
    quiltpath("plan", plan, "--out", out);
  }
  return {
    sheet: join(out, "sheet.html"),
    result: JSON.parse(readFileSync(join(out, "result.json"), "utf8")),
  };
}

/** What stands at `pieces.0.start.1` and the like. */
function at(result, key) {
  return key.split(".").reduce((value, step) => value?.[step], result);
}

/** The keys that a sheet has to have a number for. */
function wanted(result) {
  const both = (key) => [`${key}.0`, `${key}.1`];
  const { totals, passes, pieces, findings } = result;
  const counted = Object.keys(totals).filter(
    (key) => totals[key] !== null && !["shortest_stitch", "longest_stitch", "spools"].includes(key),
  );
  return [
    "quilt.width",
    "quilt.height",
    ...counted.flatMap((key) => {
      const total = totals[key];
      const inner = typeof total === "object" ? Object.keys(total).filter((own) => total[own] > 0) : null;
      return inner ? inner.map((own) => `totals.${key}.${own}`) : [`totals.${key}`];
    }),
    ...findings.flatMap(({ at }, index) => (at ? both(`findings.${index}.at`) : [])),
    ...passes.flatMap((pass, index) => [
      `passes.${index}.top`,
      ...(pass.bottom === undefined ? [] : [`passes.${index}.bottom`]),
      ...pass.runs.flatMap((_, run) => {
        const key = `passes.${index}.runs.${run}`;
        const ends = ["start_on_machine", "end_on_machine"].flatMap((end) => both(`${key}.${end}`));
        return [`${key}.number`, `${key}.length`, `${key}.stitches`, ...ends];
      }),
    ]),
    ...pieces.flatMap((piece, index) => {
      const key = `pieces.${index}`;
      const first = ["start", "end"].filter((end) => startsAt(piece, end, result));
      return [
        ...["size", "start", "end"].flatMap((name) => both(`${key}.${name}`)),
        `${key}.length`,
        ...first.flatMap((end) => [`${key}.${end}_from_seam`, `${key}.${end}_from_edge`]),
        ...(piece.kind === "side" ? ["repeats", "advance", "span", "stretch"].map((name) => `${key}.${name}`) : []),
        ...(piece.kind === "link" ? [] : both(`${key}.scale`)),
      ];
    }),
  ];
}

/** True for the end of a piece where its stitching starts. */
function startsAt(piece, end, result) {
  const parts = result.passes.flatMap((pass) => pass.runs.flatMap((run) => run.parts));
  const first = parts.find((part) => part.piece === piece.name);
  return (end === "end") === first.reversed;
}

for (const name of [
  "plan",
  "block",
  "mitred",
  "hexagon",
  "wavy",
  "out-of-square",
  "turned",
  "deep",
  "nested",
  "triangle",
  "twelve",
]) {
  test(`every number on the sheet of ${name} is that of result.json`, async () => {
    const { sheet, result } = planned(name);
    const { page, said } = await open(browser, sheet);
    const shown = await page.$$eval("[data-key]", (all) =>
      all.map((one) => [one.dataset.key, one.value, one.textContent]),
    );
    for (const [key, value, text] of shown) {
      assert.equal(Number(value), at(result, key), key);
      assert.match(text, /\d/, key);
    }
    const keys = new Set(shown.map(([key]) => key));
    const missing = wanted(result).filter((key) => !keys.has(key));
    // What is stitched is told only where something is.
    if (missing[0] === "totals.stitched" && result.totals.stitched === 0) missing.shift();
    assert.deepEqual(missing, []);
    const texts = await page.$$eval("[data-text]", (all) =>
      all.map((one) => [one.dataset.text, one.textContent]),
    );
    for (const [key, text] of texts) assert.equal(text, at(result, key), key);
    assert.equal(texts.filter(([key]) => key.endsWith(".message")).length, result.findings.length);

    // Pieces in their order, drawn once each, and the order of all parts of all runs.
    const order = [...result.pieces].sort((a, b) => a.number - b.number).map((piece) => piece.name);
    assert.deepEqual(await page.$$eval(".card h3 a", (all) => all.map((one) => one.textContent)), order);
    assert.deepEqual(
      await page.$$eval(".view .line", (all) => all.map((one) => one.id).sort()),
      order.map((_, at) => `line.${at + 1}`).sort(),
    );
    const numbers = Object.fromEntries(result.pieces.map((piece) => [piece.name, piece.number]));
    const parts = result.passes.flatMap((pass) => pass.runs.flatMap((run) => run.parts));
    assert.deepEqual(
      await page.$$eval("[data-from]", (all) =>
        all.map((one) => [Number(one.dataset.piece), "reversed" in one.dataset]),
      ),
      parts.map((part) => [numbers[part.piece], part.reversed]),
    );
    const title = result.title ?? "Quilt plan";
    assert.equal(await page.$eval("h1", (one) => one.textContent), title);
    assert.equal(await page.title(), `${title}: placement sheet`);
    // Every link within the page leads somewhere, and every id is there once.
    const dead = await page.evaluate(() => {
      const ids = [...document.querySelectorAll("[id]")].map((one) => one.id);
      const twice = ids.filter((id, at) => ids.indexOf(id) !== at);
      const links = [...document.querySelectorAll("[href]")].map((one) => one.getAttribute("href"));
      return [...twice, ...links.filter((link) => !link.startsWith("#") || !ids.includes(link.slice(1)))];
    });
    assert.deepEqual(dead, []);
    assert.deepEqual(said, []);
    await page.close();
  });
}

// Paper as in ISO 216 and ANSI/ASME Y14.1; a browser may round it to a CSS pixel (0.26 mm).
const PAPERS = { letter: [215.9, 279.4], a4: [210, 297] };

for (const name of ["turned", "nested", "twelve"]) {
  test(`the sheet of ${name} prints on letter and A4 with all its pieces`, async () => {
    const { sheet, result } = planned(name);
    const pdfs = await checkedPrints(browser, sheet, Object.keys(PAPERS));
    for (const [at, [paper, size]] of Object.entries(PAPERS).entries()) {
      for (const page of pages(pdfs[at])) {
        for (const side of [0, 1]) assert.ok(Math.abs(page.size[side] - size[side]) < 0.3, paper);
      }
      const all = words(pdfs[at]).join("\n");
      for (const { number, name: piece } of result.pieces) {
        assert.match(all, new RegExp(`^.*\\b${number}\\s+${piece}\\b`, "m"), `${piece} on ${paper}`);
      }
      for (const what of ["Before you stitch", "The machine's manual comes first", "Thread cuts", "Bobbins to wind"]) {
        assert.ok(all.includes(what), `${what} on ${paper}`);
      }
      assert.equal(all.match(/\bdone\b/g).length, result.pieces.length, paper);
      assert.ok(!all.includes("Zoom"), "buttons are not for paper");
    }
  });
}

test("pieces light up on the picture and in the list, from either", async () => {
  const { page, said } = await open(browser, planned("plan").sheet);
  await show(page, "laptop", "light");
  const lit = () => page.$$eval(".lit", (all) => [...new Set(all.map((one) => one.dataset.piece))]);
  assert.deepEqual(await lit(), []);
  await (await page.$("#piece\\.3 h3")).hover();
  assert.deepEqual(await lit(), ["3"]);
  const places = await page.$$eval(".lit", (all) => all.map((one) => one.localName));
  assert.deepEqual(places.sort(), ["a", "li", "li"]);
  const box = await (await page.$("#at\\.2 .area")).boundingBox();
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  assert.deepEqual(await lit(), ["2"]);
  const readout = await page.$eval(".readout", (one) => one.textContent);
  assert.match(readout, /^2 border-side-top\. Repeats: 5 of about 7 7\/16 in/);
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
  await page.waitForFunction(() => location.hash === "#piece.2", { timeout: 5000 });
  assert.deepEqual(said, []);
  await page.close();
});

/** The box of the picture that its frame shows: left, top, width, height. */
const shown = (page) =>
  page.$eval(".view", (view) => {
    const { x, y, width, height } = view.viewBox.baseVal;
    const style = getComputedStyle(view.querySelector(".drawing")).transform;
    const { a, e, f } = new DOMMatrix(style === "none" ? "" : style);
    return [(x - e) / a, (y - f) / a, width / a, height / a];
  });

test("the picture zooms and moves by buttons, keys, wheel and pointer", async () => {
  const { page, said } = await open(browser, planned("plan").sheet);
  await show(page, "laptop", "light");
  const whole = await shown(page);
  const near = (found, wanted) =>
    found.forEach((value, at) => assert.ok(Math.abs(value - wanted[at]) < 1e-6 * whole[2], `${found} for ${wanted}`));
  const middle = ([x, y, w, h]) => [x + w / 2, y + h / 2];
  await page.focus('[data-zoom="in"]');
  await page.keyboard.press("Enter");
  const larger = await shown(page);
  near([larger[2], ...middle(larger)], [whole[2] / 1.5, ...middle(whole)]);
  await page.focus('[data-zoom="out"]');
  await page.keyboard.press("Space");
  near(await shown(page), whole);
  await page.click('[data-zoom="out"]');
  near(await shown(page), whole);

  await page.$eval(".view", (view) => view.focus());
  for (const key of ["+", "+", "ArrowRight", "ArrowDown"]) await page.keyboard.press(key);
  const moved = await shown(page);
  near([moved[2]], [whole[2] / 2.25]);
  const [from, to] = [middle(whole), middle(moved)];
  near([to[0] - from[0], to[1] - from[1]], [moved[2] / 10, moved[3] / 10]);
  await page.keyboard.press("0");
  near(await shown(page), whole);

  // With the picture in the middle of the screen, however high the head is.
  const centred = () =>
    page.evaluate(() => {
      document.querySelector(".show").scrollTop = 0;
      document.querySelector(".view").scrollIntoView({ block: "center" });
      return scrollY + document.querySelector(".show").scrollTop;
    });
  const start = await centred();
  const frame = await (await page.$(".view")).boundingBox();
  // By itself the wheel leaves the picture as it is, and the page scrolls.
  await page.mouse.move(frame.x + frame.width / 2, frame.y + frame.height / 2);
  await page.mouse.wheel({ deltaY: 200 });
  await page.waitForFunction((own) => scrollY + document.querySelector(".show").scrollTop > own + 20, {}, start);
  near(await shown(page), whole);
  assert.equal(await centred(), start);
  await page.keyboard.down("Control");
  await page.mouse.wheel({ deltaY: -200 });
  await page.keyboard.up("Control");
  await page.waitForFunction(() => document.querySelector(".drawing").style.transform.startsWith("matrix(1."));
  const wheeled = await shown(page);
  await page.mouse.down();
  await page.mouse.move(frame.x + frame.width / 2 + 40, frame.y + frame.height / 2 + 30, { steps: 4 });
  await page.mouse.up();
  const dragged = await shown(page);
  assert.ok(dragged[0] < wheeled[0] && dragged[1] < wheeled[1], `${dragged} from ${wheeled}`);
  assert.ok(!page.url().includes("#"), "a drag is no click");
  // Paper has the whole quilt all the same, and the screen stays as it was.
  const inks = async () => {
    const { strokes } = pages(await page.pdf({ format: "letter" }))[0];
    return strokes.filter((stroke) => stroke.points.length > 1000).map((stroke) => stroke.box);
  };
  const printed = await inks();
  assert.deepEqual(await shown(page), dragged);
  await page.click('[data-zoom="whole"]');
  assert.deepEqual(await inks(), printed);
  assert.ok(printed.length >= 8);
  assert.deepEqual(said, []);
  await page.close();
});

test("Tab leads to every piece, its box and its links", async () => {
  const { sheet, result } = planned("turned");
  const { page } = await open(browser, sheet);
  const reached = [];
  for (let press = 0; press < 200; press++) {
    await page.keyboard.press("Tab");
    const at = await page.evaluate(() => {
      const one = document.activeElement;
      return one === document.body ? null : one.getAttribute("aria-label") || one.textContent;
    });
    if (at === null) break;
    reached.push(at);
  }
  for (const { number, name } of result.pieces) {
    for (const what of [`${number}, ${name}`, `${number}, ${name}, is stitched`, name]) {
      assert.ok(reached.includes(what), what);
    }
  }
  for (const what of ["Play", "Zoom in", "Whole quilt"]) assert.ok(reached.includes(what), what);
  // A piece in focus is lit, and the space bar ticks its box. The last Tab has left the page, where
  // no event tells of focus until it is back.
  await page.bringToFront();
  await page.waitForFunction(() => document.hasFocus());
  await page.focus("#piece\\.4 input");
  assert.equal(await page.$eval("#at\\.4", (one) => one.classList.contains("lit")), true);
  await page.keyboard.press("Space");
  assert.equal(await page.$eval("#piece\\.4 input", (one) => one.checked), true);
  await page.close();
});

/** How far the order of stitching is played, from 0 to 1000. */
const played = (page) => page.$eval("[data-order]", (one) => Number(one.value));

test("the order of stitching plays, stops, and goes to any place", async () => {
  const { page, said } = await open(browser, planned("turned").sheet);
  await page.select("[data-speed]", "5");
  await page.focus("[data-play]");
  await page.keyboard.press("Enter");
  assert.equal(await page.$eval("[data-play]", (one) => one.textContent), "Pause");
  await page.waitForFunction(() => document.querySelector("[data-order]").value > 50);
  await page.keyboard.press("Enter");
  const stopped = await played(page);
  assert.ok(stopped > 50 && stopped < 1000, `${stopped}`);
  assert.equal(await page.$eval("[data-play]", (one) => one.textContent), "Play");
  await new Promise((resolve) => setTimeout(resolve, 200));
  assert.equal(await played(page), stopped);

  // Halfway the parts before the needle are drawn whole, those after it not at all.
  await page.$eval("[data-order]", (one) => {
    one.value = 500;
    one.dispatchEvent(new Event("input"));
  });
  const drawn = await page.$$eval(".playing use", (all) =>
    all.map((one) => (one.style.display === "none" ? 0 : parseFloat(one.style.getPropertyValue("--dash")))),
  );
  const whole = await page.$$eval("[data-from]", (all) =>
    all.map((one) => {
      const length = document.getElementById(`line.${one.dataset.piece}`).getTotalLength();
      return (one.dataset.to - one.dataset.from) * length;
    }),
  );
  const sum = (numbers) => numbers.reduce((a, b) => a + b, 0);
  assert.ok(Math.abs(sum(drawn) - sum(whole) / 2) < 1e-3 * sum(whole));
  const partly = drawn.filter((long, at) => long > 0 && long < whole[at] - 1);
  assert.ok(partly.length <= 1);
  assert.ok(drawn.findIndex((long) => long === 0) >= drawn.findLastIndex((long) => long > 0));

  await page.$eval(".view", (view) => view.focus());
  await page.keyboard.press("Space");
  const atTheEnd = () => document.querySelector("[data-order]").value === "1000";
  await page.waitForFunction(atTheEnd, { timeout: 20000 });
  // The frame that reaches the end is the one that stops.
  assert.equal(await page.$eval("[data-play]", (one) => one.textContent), "Play");
  assert.equal(await page.$eval(".view", (one) => one.classList.contains("plays")), false);
  assert.deepEqual(said, []);
  await page.close();
});

test("who asked for less motion sees whole parts appear", async () => {
  const { page } = await open(browser, planned("turned").sheet);
  await page.emulateMediaFeatures([{ name: "prefers-reduced-motion", value: "reduce" }]);
  const seen = await page.evaluate(async () => {
    const order = document.querySelector("[data-order]");
    const seen = new Set();
    document.querySelector("[data-speed]").value = "5";
    document.querySelector("[data-play]").click();
    while (document.querySelector("[data-play]").textContent === "Pause") {
      seen.add(order.value);
      await new Promise(requestAnimationFrame);
    }
    return [...seen];
  });
  const parts = planned("turned").result.passes.flatMap((pass) => pass.runs.flatMap((run) => run.parts));
  assert.equal(seen.length, parts.length);
  assert.equal(seen[0], "0");
  await page.close();
});

test("without scripts all of the sheet is there, but for the buttons", async () => {
  const page = await browser.newPage();
  await page.setJavaScriptEnabled(false);
  const { sheet, result } = planned("plan");
  await page.goto(`file://${sheet}`);
  const text = await page.$eval("body", (body) => body.innerText);
  for (const piece of result.pieces) assert.ok(text.includes(piece.name));
  assert.ok(!text.includes("Zoom in") && text.includes("Before you stitch"));
  await page.close();
});

test("ticks are kept for the plan, and go to a file and back", async () => {
  const { sheet, result } = planned("plan");
  const { page, said } = await open(browser, sheet);
  const ticked = () => page.$$eval(".tick input", (all) => all.filter((one) => one.checked).length);
  assert.equal(await ticked(), 0);
  for (const number of [2, 5]) await page.click(`#piece\\.${number} .tick input`);
  await page.reload();
  assert.equal(await ticked(), 2);
  assert.equal(await page.$eval("#piece\\.5 .tick input", (one) => one.checked), true);

  // The file that is saved, read again where nothing is ticked; and that of another plan.
  const saved = await page.evaluate(async () => {
    const kept = [];
    URL.createObjectURL = (blob) => (kept.push(blob), "#");
    document.querySelector("[data-save]").click();
    return kept[0].text();
  });
  assert.deepEqual(JSON.parse(saved).ticked, [2, 5]);
  const file = join(work.path, "ticks.json");
  writeFileSync(file, saved);
  for (const number of [2, 5]) await page.click(`#piece\\.${number} .tick input`);
  assert.equal(await ticked(), 0);
  const read = async (path, words) => {
    await (await page.$("[data-read]")).uploadFile(path);
    await page.waitForFunction(
      (words) => document.querySelector("[data-answer]").textContent.includes(words),
      { timeout: 5000 },
      words,
    );
  };
  await read(file, `2 of ${result.pieces.length} pieces`);
  assert.equal(await ticked(), 2);
  writeFileSync(file, saved.replace(/"plan":"./, '"plan":"x'));
  await read(file, "another plan");
  assert.equal(await ticked(), 2);
  assert.deepEqual(said, []);
  await page.close();
  const other = await open(browser, planned("hexagon").sheet);
  assert.equal(await other.page.$$eval(".tick input:checked", (all) => all.length), 0);
  await other.page.close();
});

test("what a finger is to meet is 44 px high", async () => {
  const { page } = await open(browser, planned("turned").sheet);
  await show(page, "phone", "light");
  const small = await page.$$eval("button, select, .file, label.tick, input[type=range], summary, .card a", (all) =>
    all
      .map((one) => [one.outerHTML.slice(0, 60), one.getBoundingClientRect()])
      .filter(([, box]) => box.height > 0 && box.height < 43.9)
      .map(([what, box]) => `${what}: ${box.height}`),
  );
  assert.deepEqual(small, []);
  await page.close();
});

test("a fraction is set as one, and nothing breaks inside a measure", async () => {
  const { page } = await open(browser, planned("nested").sheet);
  for (const screen of ["phone", "laptop"]) {
    await show(page, screen, "light");
    const [broken, many] = await page.$$eval(".n", (all) => {
      // A box for each line that a measure stands on.
      const rows = (one) => {
        const range = document.createRange();
        range.selectNodeContents(one);
        const seen = [...range.getClientRects()].filter((box) => box.width > 2);
        return seen.length === 0 ? 0 : Math.max(...seen.map((b) => b.top)) - Math.min(...seen.map((b) => b.bottom));
      };
      return [all.filter((one) => rows(one) > 2).map((one) => one.textContent), all.length];
    });
    assert.deepEqual(broken, []);
    assert.ok(many > 50);
  }
  const fractions = await page.$$eval(".fr", (all) =>
    all.map((one) => [one.previousElementSibling.textContent.trim(), `${one.dataset.above}/${one.dataset.below}`]),
  );
  assert.ok(fractions.length > 20);
  for (const [text, shown] of fractions) assert.equal(text, shown);
  await page.close();
});

test("on paper letters have nine points or more, and pages their numbers", async () => {
  for (const name of ["plan", "nested", "deep", "hexagon", "three"]) {
    const { page } = await open(browser, planned(name).sheet);
    const pdf = await print(page, "letter");
    // The figures of fractions are the smallest there are.
    const small = letters(pdf).filter(([size]) => size < 9);
    assert.deepEqual(small, [], name);
    assert.ok(letters(pdf).length > 100, name);
    const all = words(pdf);
    all.forEach((text, at) => assert.ok(text.includes(`${at + 1} of ${all.length}`), `page ${at + 1}`));
    await page.close();
  }
});
