// What the hand does on the worksheet: fields and handles, one step each way, back and forth; what
// can't be read; and how it all looks to a screen of any width, to one who listens, and on paper.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { SCHEMES, launch, print } from "./browser.mjs";
import { pages, words } from "./paper.mjs";
import { WIDTHS, Worksheet, visitor } from "./worksheet.mjs";

let browser;

before(async () => {
  browser = await launch();
});

after(() => browser?.close());

/** A test with the example on the page of a new visitor. */
function visit(name, does, manner) {
  test(name, async (within) => {
    const who = await visitor(browser);
    const sheet = await Worksheet.open(who, manner);
    await sheet.settled();
    await does(sheet, within);
    await sheet.close();
    await who.leave();
  });
}

/** What the head names as the last change. */
const lastChange = (sheet) => sheet.page.$eval(".row-of [aria-live] .set .unseen, .row-of [aria-live]", (own) => own.textContent);

/** Presses a key with others held. */
async function chord(sheet, ...keys) {
  const last = keys.pop();
  for (const key of keys) await sheet.page.keyboard.down(key);
  await sheet.page.keyboard.press(last);
  for (const key of keys.reverse()) await sheet.page.keyboard.up(key);
}

/** The middle of a handle. */
async function middle(sheet, name) {
  const handle = await sheet.the("button", `${name}, drag or use the arrow keys`);
  await handle.evaluate((own) => own.scrollIntoView({ block: "center" }));
  const box = await handle.boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

const SIXTEENTHS = /^\d+(?: \d+\/(?:2|4|8|16))?$/;

visit("a field from focus to leaving is one step, named from its first key", async (sheet) => {
  await sheet.write("Top edge", "70 1/2");
  assert.match(await lastChange(sheet), /^top edge, 64 1\/4 to 70 1\/2/);
  await sheet.press("Take back");
  assert.equal(await sheet.written("Top edge"), "64 1/4");
  await sheet.press("Put back");
  assert.equal(await sheet.written("Top edge"), "70 1/2");
  await sheet.write("Left edge", "81");
  await chord(sheet, "Control", "z");
  assert.equal(await sheet.written("Left edge"), "80");
  await chord(sheet, "Control", "z");
  assert.equal(await sheet.written("Top edge"), "64 1/4");
  await chord(sheet, "Control", "Shift", "Z");
  await chord(sheet, "Control", "Shift", "Z");
  assert.equal(await sheet.written("Left edge"), "81");
  assert.equal(await sheet.written("Top edge"), "70 1/2");
});

visit("customer and notes are kept, each one step, and notes keep their lines", async (sheet) => {
  await sheet.write("Customer", "Wanda Berg & <b>Sons</b>");
  const notes = await sheet.the("textbox", "Notes");
  await sheet.reach(notes);
  await sheet.page.keyboard.down("Control");
  await sheet.page.keyboard.press("a");
  await sheet.page.keyboard.up("Control");
  await sheet.page.keyboard.type("Cotton batting.");
  const [low, high] = [await notes.boundingBox(), (await sheet.page.keyboard.type("\nNo knots.\nFour."), await notes.boundingBox())];
  assert.ok(high.height > 1.5 * low.height, "it grows with its lines");
  await sheet.page.keyboard.press("Tab");
  assert.match(await lastChange(sheet), /^the notes/);
  await sheet.press("Take back");
  assert.match(await sheet.written("Notes"), /^Wool batting, ecru thread\.\n/);
  await sheet.press("Put back");
  await sheet.settled();
  await sheet.page.reload();
  await sheet.settled();
  assert.equal(await sheet.written("Customer"), "Wanda Berg & <b>Sons</b>");
  assert.equal(await sheet.written("Notes"), "Cotton batting.\nNo knots.\nFour.");
  const { plan } = JSON.parse((await sheet.save()).text);
  assert.deepEqual([plan.customer, plan.notes], ["Wanda Berg & <b>Sons</b>", "Cotton batting.\nNo knots.\nFour."]);
  const said = words(await print(sheet.page)).join(" ").replace(/\s+/g, " ");
  assert.match(said, /For Wanda Berg & <b>Sons<\/b> Notes Cotton batting\. No knots\. Four\./);
  // Nothing written is no key, and nothing on paper.
  await sheet.write("Customer", "");
  await sheet.settled();
  assert.equal("customer" in JSON.parse((await sheet.save()).text).plan, false);
  await sheet.page.emulateMediaType("print");
  const shown = await sheet.page.$$eval(".whom>*", (all) => all.map((own) => getComputedStyle(own).display !== "none"));
  assert.deepEqual(shown, [false, false, true, true]);
  await sheet.page.emulateMediaType();
  await sheet.write("Customer", "w".repeat(201));
  await sheet.page.waitForFunction(() => document.querySelector(".whom .hint")?.textContent.includes("give at most 200"));
});

visit("arrow keys step a length by a sixteenth, with Shift by an inch", async (sheet) => {
  const field = await sheet.the("textbox", "Top edge");
  await field.focus();
  await sheet.page.keyboard.press("ArrowUp");
  assert.equal(await sheet.written("Top edge"), "64 5/16");
  await sheet.page.keyboard.press("ArrowDown");
  await sheet.page.keyboard.press("ArrowDown");
  assert.equal(await sheet.written("Top edge"), "64 3/16");
  await chord(sheet, "Shift", "ArrowUp");
  assert.equal(await sheet.written("Top edge"), "65 3/16");
  await sheet.page.keyboard.press("Enter");
  await sheet.press("Take back");
  assert.equal(await sheet.written("Top edge"), "64 1/4");
});

visit("a corner is dragged in sixteenths as one step, and dropped by Escape", async (sheet) => {
  const [x, y] = await middle(sheet, "Bottom right corner");
  const { mouse, keyboard } = sheet.page;
  await mouse.move(x, y);
  await mouse.down();
  for (const by of [7, 13, 22]) await mouse.move(x + by, y + by / 2);
  const [wide, high] = [await sheet.written("Top edge"), await sheet.written("Left edge")];
  assert.match(wide, SIXTEENTHS);
  assert.match(high, SIXTEENTHS);
  assert.notEqual(wide, "64 1/4");
  assert.notEqual(high, "80");
  await mouse.up();
  await sheet.settled();
  assert.equal(await sheet.written("Top edge"), wide);
  await sheet.press("Take back");
  assert.deepEqual([await sheet.written("Top edge"), await sheet.written("Left edge")], ["64 1/4", "80"]);
  const again = await middle(sheet, "Bottom right corner");
  await mouse.move(...again);
  await mouse.down();
  await mouse.move(again[0] + 30, again[1] + 5);
  assert.notEqual(await sheet.written("Top edge"), "64 1/4");
  await keyboard.press("Escape");
  assert.equal(await sheet.written("Top edge"), "64 1/4");
  await mouse.move(again[0] + 60, again[1] + 5);
  assert.equal(await sheet.written("Top edge"), "64 1/4");
  await mouse.up();
});

visit(
  "a seam is dragged by a finger, and stepped by keys",
  async (sheet) => {
    const name = "Seam, top: width of the border;";
    const handle = await sheet.the("button", `${name} drag or use the arrow keys`);
    await handle.evaluate((own) => own.scrollIntoView({ block: "center" }));
    const box = await handle.boundingBox();
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    const { touchscreen, keyboard } = sheet.page;
    await touchscreen.touchStart(x, y);
    await touchscreen.touchMove(x, y + 6);
    await touchscreen.touchMove(x, y + 12);
    await touchscreen.touchEnd();
    await sheet.settled();
    const width = await sheet.written("Width of border");
    assert.match(width, SIXTEENTHS);
    assert.ok(Number.parseInt(width, 10) >= 7, width);
    await sheet.press("Take back");
    assert.equal(await sheet.written("Width of border"), "6");
    await handle.focus();
    await keyboard.press("ArrowDown");
    assert.equal(await sheet.written("Width of border"), "6 1/16");
    await chord(sheet, "Shift", "ArrowUp");
    assert.equal(await sheet.written("Width of border"), "5 1/16");
  },
  { width: 820, way: "touch" },
);

visit("in millimetres a field steps by one, with Shift by ten", async (sheet) => {
  await sheet.take("mm");
  await sheet.write("Top edge", "1632");
  const field = await sheet.the("textbox", "Top edge");
  await field.focus();
  await sheet.page.keyboard.press("ArrowUp");
  assert.equal(await sheet.written("Top edge"), "1633");
  await chord(sheet, "Shift", "ArrowDown");
  assert.equal(await sheet.written("Top edge"), "1623");
});

/** Keys by one who waits for nothing: each is on its way before the one before has arrived. */
async function hasty(sheet) {
  const client = await sheet.page.createCDPSession();
  const sent = [];
  const key = (key, code, more) => {
    for (const type of [more.text ? "keyDown" : "rawKeyDown", "keyUp"]) {
      sent.push(client.send("Input.dispatchKeyEvent", { type, key, code: key, windowsVirtualKeyCode: code, ...more }));
    }
  };
  return {
    // On a keyboard these two have other numbers than in text.
    type: (text) => [...text].forEach((text) => key(text, { ".": 190, "/": 191 }[text] ?? text.charCodeAt(0), { text })),
    tab: (back = false) => key("Tab", 9, { modifiers: back ? 8 : 0 }),
    arrived: () => Promise.all(sent),
  };
}

visit("no key is lost, however fast two hundred numbers are typed", async (sheet) => {
  const names = ["Top edge", "Left edge", "Diagonal, top left to bottom right", "Diagonal, bottom left to top right"];
  await (await sheet.the("textbox", names[0])).focus();
  await sheet.page.evaluate(() => {
    globalThis.left = [];
    addEventListener("focusout", ({ target }) => globalThis.left.push([target.ariaLabel, target.value]), true);
  });
  const hand = await hasty(sheet);
  const written = [];
  for (let at = 0; at < 200; at += 1) {
    // There and back again, each field in its turn; the diagonals stay blank.
    const place = at % 6;
    const text = place < 2 || place === 5 ? `${60 + (at % 9)}.${1 + (at % 8)}` : "";
    hand.type(text);
    written.push([names[place < 4 ? place : 6 - place], text]);
    hand.tab(place >= 3);
  }
  await hand.arrived();
  assert.deepEqual(await sheet.page.evaluate(() => globalThis.left), written);
  await sheet.settled();
  const { quilt } = JSON.parse((await sheet.save()).text).plan;
  const last = (name) => written.findLast(([own]) => own === name)[1];
  assert.deepEqual(quilt, { width: last("Top edge"), height: last("Left edge") });
});

visit("a field that is passed by takes nothing from the next", async (sheet) => {
  const { keyboard } = sheet.page;
  const here = () => sheet.page.evaluate(() => [document.activeElement.ariaLabel, document.activeElement.value]);
  const frames = () => sheet.page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  const depth = "Depth of the band";
  await (await sheet.the("slider", "The band may get shallower by up to")).focus();
  const hand = await hasty(sheet);
  hand.tab();
  hand.tab();
  await hand.arrived();
  await frames();
  assert.equal((await here())[0], depth);
  hand.tab(true);
  hand.type("4 7/8");
  await hand.arrived();
  await frames();
  assert.deepEqual(await here(), [`${depth}, typed`, "4 7/8"]);
  await keyboard.press("Enter");
  await sheet.changed("band 4 7/8 in deep");
  await sheet.settled();
  // Arrows count from where the last one went, not from what is worked out so far.
  await (await sheet.the("slider", depth)).focus();
  for (let at = 0; at < 4; at += 1) await keyboard.press("ArrowLeft");
  await sheet.changed("band 4 5/8 in deep");
  await sheet.settled();
  assert.equal(await sheet.page.evaluate(() => document.activeElement.ariaValueText), "4 5/8 in");
});

visit("a number that is equal to another on its way ties neither", async (sheet) => {
  await sheet.write("Bottom edge", "64");
  await sheet.write("Top edge", "64 1/2");
  await sheet.write("Right edge", "81");
  await sheet.write("Left edge", "81 1/4");
  const { quilt } = JSON.parse((await sheet.save()).text).plan;
  assert.deepEqual(quilt, { top: "64 1/2", right: "81", bottom: "64", left: "81 1/4" });
});

visit("what can't be read is marked with a hint, and the last picture stays", async (sheet) => {
  const picture = () => sheet.page.$eval("svg.live", (own) => own.innerHTML);
  const before = await picture();
  const field = await sheet.write("Width of border", "six and a half");
  await sheet.settled();
  assert.equal(await field.evaluate((own) => own.ariaInvalid), "true");
  // What it is called stays what it is called.
  assert.equal(await (await sheet.the("textbox", "Width of border")).evaluate((own) => own.value), "six and a half");
  const described = await field.evaluate((own) => document.getElementById(own.getAttribute("aria-describedby"))?.textContent);
  assert.equal(described, "Write it as 64 1/4 or 64.25");
  assert.equal(await picture(), before);
  await sheet.clean("a hint");
  await sheet.more();
  const all = await sheet.the("button", "Save all files for the machine");
  assert.equal(await all.evaluate((own) => own.disabled), true);
  await sheet.write("Width of border", "6 1/2");
  await sheet.settled();
  assert.equal(await sheet.page.$eval(".field input[aria-invalid=true]", () => true).catch(() => false), false);
  assert.notEqual(await picture(), before);
});

visit("a repeat is picked, and the picture follows", async (sheet) => {
  const chart = await sheet.page.waitForSelector("fieldset.chart");
  const name = await chart.evaluate((own) => own.querySelector("legend").firstChild.textContent.trim());
  const [before, other] = await chart.evaluate((own) => {
    const all = [...own.querySelectorAll("input")];
    return [all.find((one) => one.checked).value, all.find((one) => !one.checked).value];
  });
  const picture = () => sheet.page.$eval("svg.live", (own) => own.innerHTML);
  const drawn = await picture();
  const label = await chart.$(`label:has(input[value="${other}"])`);
  await label.click();
  await sheet.changed(`${name.toLowerCase()}, ${before} to ${other}`);
  await sheet.settled();
  assert.notEqual(await picture(), drawn);
  assert.equal(await chart.evaluate((own) => own.querySelector("input:checked").value), other);
  await sheet.press("Take back");
  await sheet.settled();
  assert.equal(await picture(), drawn);
});

visit("all parts are clean at any width, light and dark, filled in and empty", async (sheet, within) => {
  for (const start of ["the example", "an empty sheet"]) {
    await sheet.more();
    await sheet.press(start);
    await sheet.settled();
    for (const width of WIDTHS) {
      for (const scheme of SCHEMES) {
        await within.test(`${start} at ${width} px, ${scheme}`, async () => {
          await sheet.page.setViewport({ width, height: 900 });
          await sheet.page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
          await sheet.settled();
          await sheet.clean(`${start} at ${width} px, ${scheme}`);
        });
      }
    }
  }
});

visit("on paper it is the sheet, without what a screen alone has use for", async (sheet) => {
  const pdf = await print(sheet.page, "letter");
  const count = pages(pdf).length;
  assert.ok(count <= 7, `${count} pages`);
  const text = words(pdf).join(" ").replaceAll(/\s+/g, " ");
  for (const seen of ["The quilt", "The designs", "The result", "At the frame"]) {
    assert.ok(text.includes(seen), `${seen}: ${text.slice(0, 500)}`);
  }
  for (const gone of ["Take back", "Add a border inside", "Make a link"]) assert.ok(!text.includes(gone), gone);
});
