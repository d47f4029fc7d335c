// The worksheet among what is hostile, broken or gone: nothing that came from a file runs, nothing
// leaves the page, nothing is lost.

import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { deflateRawSync } from "node:zlib";
import { launch } from "./browser.mjs";
import { DEMO, folder } from "./command.mjs";
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

const drawing = (name) => readFileSync(join(DEMO, name), "utf8");
const DRAWINGS = { "border.svg": drawing("border.svg"), "corner.svg": drawing("corner.svg") };

/** A sheet of the demo, changed. */
function sheetOf({ drawings = {}, ...more } = {}) {
  const plan = JSON.parse(readFileSync(join(DEMO, "plan.json"), "utf8"));
  return { plan: { ...plan, ...more }, drawings: { ...DRAWINGS, ...drawings } };
}

/** A file in the work folder. */
function file(name, content) {
  const path = join(work.path, name);
  writeFileSync(path, typeof content === "object" && !Buffer.isBuffer(content) ? JSON.stringify(content) : content);
  return path;
}

const linkOf = (content) => `#sheet=${deflateRawSync(JSON.stringify(content)).toString("base64url")}`;

/** The page says something of this. */
const says = (sheet, words) =>
  sheet.page.waitForFunction(
    (own) => [...document.querySelectorAll("[role=alert]")].some((alert) => alert.textContent.includes(own)),
    { timeout: 10_000 },
    words,
  );

const opened = (sheet) =>
  sheet.page.waitForFunction(() => document.querySelector(".head").textContent.includes("opened"));

/** A test with one page of a new visitor. */
function visit(name, does, manner) {
  test(name, async () => {
    const who = await visitor(browser);
    const sheet = await Worksheet.open(who, manner);
    await does(sheet, who);
    await sheet.close();
    await who.leave();
  });
}

const HURT = '</script><script>globalThis.hurt = 1</script><img src=x onerror="globalThis.hurt = 2">';
const TITLE = `Aunt & "Bee's" ${HURT}`;

/** Everything that a file may carry, with something to run in each place. */
const hurting = () => {
  const svg = (text) =>
    text.replace(/(<svg[^>]*)>/, '$1 onload="globalThis.hurt = 3"><script>globalThis.hurt = 4</script>');
  const made = sheetOf({ title: TITLE, drawings: { "border.svg": svg(DRAWINGS["border.svg"]) } });
  made.plan.borders[0].name = HURT;
  return made;
};

async function unhurt(sheet) {
  await sheet.settled();
  assert.equal(await sheet.page.evaluate(() => globalThis.hurt), undefined);
  assert.equal(await sheet.page.$$eval("img", (all) => all.filter((own) => own.src.endsWith("/x")).length), 0);
  assert.equal(await sheet.written("Name of the quilt"), TITLE);
}

visit("nothing runs that came from a file", async (sheet) => {
  await sheet.choose("A sheet to open", file("hurt.quilt.json", hurting()));
  await opened(sheet);
  await unhurt(sheet);
  await sheet.clean("hurt");
  // Nor from what was kept of it.
  await sheet.page.reload();
  await sheet.page.waitForSelector("main[aria-busy=false]");
  await unhurt(sheet);
});

test("nothing runs that came from a link, and what was there before can be taken back", async () => {
  const who = await visitor(browser);
  const first = await Worksheet.open(who);
  await first.write("Name of the quilt", "Mine");
  await first.settled();
  await first.close();
  const sheet = await Worksheet.open(who, { fragment: linkOf(hurting()) });
  await unhurt(sheet);
  assert.equal(await sheet.page.evaluate(() => location.hash), "");
  await sheet.press("Take back");
  await sheet.settled();
  assert.equal(await sheet.written("Name of the quilt"), "Mine");
  await sheet.close();
  await who.leave();
});

for (const [what, fragment] of [
  ["no base64", "#sheet=%%%"],
  ["nothing packed", `#sheet=${Buffer.from("not packed").toString("base64url")}`],
  ["no JSON", `#sheet=${deflateRawSync("{").toString("base64url")}`],
  ["a gigabyte", `#sheet=${deflateRawSync(Buffer.alloc(64 << 20, 32)).toString("base64url")}`],
]) {
  visit(
    `a link that holds ${what}`,
    async (sheet) => {
      await sheet.settled();
      assert.match(await sheet.written("Name of the quilt"), /^Harbour Garden/);
      assert.deepEqual(await sheet.page.$$eval("svg.live path", (all) => all.length > 10), true);
    },
    { fragment },
  );
}

visit("a link goes round", async (sheet) => {
  await sheet.write("Name of the quilt", "By link");
  await sheet.more();
  await sheet.press("Make a link");
  const field = await sheet.the("textbox", "A link that brings this sheet along");
  const address = await field.evaluate((own) => own.value);
  const other = await visitor(browser);
  const there = await Worksheet.open(other, { fragment: address.slice(address.indexOf("#")) });
  await there.settled();
  assert.equal(await there.written("Name of the quilt"), "By link");
  await there.close();
  await other.leave();
});

for (const [what, content] of [
  ["bytes by chance", Buffer.from(Array.from({ length: 4096 }, (_, at) => (at * 7919) % 251))],
  ["nothing", ""],
  ["a web page", "<!DOCTYPE html><script>globalThis.hurt = 1</script>"],
  ["a list", "[1, 2, 3]"],
  ["null", "null"],
  ["JSON that is deep", "[".repeat(100_000)],
  ["a plan that is no object", { plan: 5, drawings: {} }],
  ["drawings that are numbers", { plan: { quilt: {}, borders: [] }, drawings: { a: 5 } }],
]) {
  visit(`a sheet that is ${what} is said and changes nothing`, async (sheet) => {
    await sheet.choose("A sheet to open", file("not.quilt.json", content));
    await says(sheet, "not.quilt.json is no sheet");
    await sheet.settled();
    assert.match(await sheet.written("Name of the quilt"), /^Harbour Garden/);
    assert.equal(await sheet.page.evaluate(() => globalThis.hurt), undefined);
  });
}

for (const [place, plan] of [
  ["quilt", { quilt: [], borders: [] }],
  ["borders", { quilt: {}, borders: 5 }],
  ["quilt.corners", { quilt: { corners: [1, 2, 3] }, borders: [] }],
  ["borders[0]", { quilt: {}, borders: [null] }],
  ["borders[0].side", { quilt: {}, borders: [{ side: null }] }],
  ["machine", { quilt: {}, machine: 5 }],
]) {
  visit(`a plan that can't be shown for its ${place} is said and changes nothing`, async (sheet) => {
    await sheet.choose("A sheet to open", file("not.quilt.json", plan));
    await says(sheet, "not.quilt.json is no sheet");
    await sheet.settled();
    assert.match(await sheet.written("Name of the quilt"), /^Harbour Garden/);
  });
}

visit("values of the wrong kind are shown, and what they should be is said", async (sheet) => {
  const wrong = [
    { quilt: { width: {}, height: [] }, borders: [{}] },
    { quilt: { corners: [[{}, null], [1, 2], [3, 4]] }, borders: [] },
    { title: { a: 1 }, unit: "furlong", quilt: { width: 60, height: 80 }, borders: [{ name: 7, width: null }] },
  ];
  for (const [at, plan] of wrong.entries()) {
    await sheet.choose("A sheet to open", file(`wrong-${at}.json`, plan));
    await sheet.page.waitForFunction((name) => document.querySelector(".head").textContent.includes(name), {}, `wrong-${at}`);
    await sheet.settled();
    assert.match((await sheet.texts("#result [role=status]")).join(" "), /give /i, JSON.stringify(plan));
    await sheet.clean(JSON.stringify(plan));
  }
});

/** A server of our own that counts who comes. */
async function listening() {
  let heard = 0;
  const server = createServer((_, response) => {
    heard += 1;
    response.end("console.log('loaded')");
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  return { address: `http://127.0.0.1:${server.address().port}`, heard: () => heard, close: () => server.close() };
}

test("nothing leaves the page, not even when asked to", async () => {
  const server = await listening();
  const who = await visitor(browser);
  const sheet = await Worksheet.open(who);
  await sheet.page.evaluate(async (address) => {
    await fetch(`${address}/fetch`).catch(() => {});
    navigator.sendBeacon(`${address}/beacon`, "x");
    try {
      new WebSocket(address.replace("http", "ws"));
    } catch {
      // Refused at once.
    }
    for (const [name, key] of [["img", "src"], ["script", "src"], ["iframe", "src"], ["link", "href"], ["object", "data"], ["audio", "src"]]) {
      const element = document.createElement(name);
      if (name === "link") element.rel = "stylesheet";
      element[key] = `${address}/${name}`;
      document.body.append(element);
    }
    const form = document.createElement("form");
    form.action = `${address}/form`;
    document.body.append(form);
    form.submit();
    const style = document.createElement("style");
    style.textContent = `@import url(${address}/import);body{background:url(${address}/background)}`;
    document.head.append(style);
    await new Promise((done) => setTimeout(done, 500));
  }, server.address);
  const [worker] = sheet.page.workers();
  await worker.evaluate(async (address) => {
    await fetch(`${address}/worker`).catch(() => {});
    try {
      importScripts(`${address}/import`);
    } catch {
      // Refused.
    }
  }, server.address);
  assert.equal(server.heard(), 0);
  await who.leave();
  server.close();
});

visit("a worker that gives up is said, and a fresh one goes on", async (sheet) => {
  const [worker] = sheet.page.workers();
  await worker.evaluate(() => self.postMessage({ type: "broken", message: "by the test" }));
  await says(sheet, "by the test");
  await sheet.write("Top edge", "66");
  await sheet.settled();
  assert.notEqual(sheet.page.workers()[0], worker);
  assert.equal(JSON.parse((await sheet.save()).text).plan.quilt.width, "66");
});

visit("a worker that takes too long gives way to what is newer", async (sheet) => {
  const [worker] = sheet.page.workers();
  const long = worker
    .evaluate(() => {
      const end = Date.now() + 60_000;
      while (Date.now() < end);
    })
    .catch(() => {});
  const began = performance.now();
  await sheet.write("Top edge", "66");
  await sheet.write("Top edge", "67");
  await sheet.settled();
  assert.ok(performance.now() - began < 30_000, "it waited for the old one");
  assert.equal(JSON.parse((await sheet.save()).text).plan.quilt.width, "67");
  await long;
});
