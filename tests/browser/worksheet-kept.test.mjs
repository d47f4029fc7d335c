// Where the sheet is kept: by a browser that keeps it, by one that refuses or has no room, by two tabs
// at a time; and by a page that goes in the middle of a word.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch } from "./browser.mjs";
import { Worksheet, visitor } from "./worksheet.mjs";

let browser;

before(async () => {
  browser = await launch();
});

after(() => browser?.close());

function visit(name, does, manner) {
  test(name, async () => {
    const who = await visitor(browser);
    const sheet = await Worksheet.open(who, manner);
    await does(sheet, who);
    await sheet.close();
    await who.leave();
  });
}

/** Writes into a field and stays in it. */
async function type(sheet, name, text) {
  await (await sheet.the("textbox", name)).focus();
  await sheet.page.keyboard.type(text);
}

visit("a reload in the middle of a word loses nothing", async (sheet) => {
  // What was kept before, then a draft on top of that, more than once.
  await sheet.settled();
  for (const text of ["71 1/2", "72 3/4", "68"]) {
    await type(sheet, "Top edge", text);
    await sheet.page.reload();
    await sheet.settled();
    assert.equal(await sheet.written("Top edge"), text);
  }
});

visit("the way back loses nothing, within the page or out of it", async (sheet) => {
  await sheet.settled();
  await (await sheet.page.$("nav a[href='#frame']")).click();
  await type(sheet, "Top edge", "71 1/2");
  await sheet.page.goBack();
  assert.equal(await sheet.written("Top edge"), "71 1/2");
  await type(sheet, "Left edge", "82 1/4");
  await sheet.page.goto("about:blank");
  await sheet.page.goBack();
  await sheet.settled();
  assert.deepEqual([await sheet.written("Top edge"), await sheet.written("Left edge")], ["71 1/2", "82 1/4"]);
});

/** Puts something else into the store, as a page of before would have left it. */
function leave(sheet, text, draft) {
  return sheet.page.evaluate(
    async (text, draft) => {
      const wait = (request) => new Promise((done) => (request.onsuccess = () => done(request.result)));
      const database = await wait(indexedDB.open("quiltpath", 1));
      const store = database.transaction("sheets", "readwrite").objectStore("sheets");
      await wait(store.put({ revision: 8, tab: "before", turn: 3, text }, "now"));
      if (draft) localStorage.setItem("quiltpath", JSON.stringify({ tab: "before", ...draft }));
      database.close();
    },
    text,
    draft,
  );
}

/** The example with another width. */
const wide = async (sheet, width) => {
  const { plan, drawings } = JSON.parse((await sheet.save()).text);
  return JSON.stringify({ plan: { ...plan, quilt: { ...plan.quilt, width } }, drawings });
};

visit("the newest wins: a draft over what was still on its way to the store, the store over an old draft", async (sheet) => {
  await sheet.settled();
  const [older, newer] = [await wide(sheet, "8"), await wide(sheet, "80")];
  for (const [what, text, draft, width] of [
    ["put down after the store's was sent off", older, { revision: 7, turn: 4, text: newer }, "80"],
    ["on top of the store's", older, { revision: 8, turn: 9, text: newer, tab: "another" }, "80"],
    ["put down before the store's", newer, { revision: 7, turn: 2, text: older }, "80"],
    ["of another tab, below the store's", newer, { revision: 7, turn: 9, text: older, tab: "another" }, "80"],
  ]) {
    await leave(sheet, text, draft);
    await sheet.page.reload();
    await sheet.settled();
    assert.equal(await sheet.written("Top edge"), width, what);
  }
});

visit("a kept drawing whose name is none is said, and the rest stays", async (sheet) => {
  await sheet.settled();
  const kept = JSON.parse((await sheet.save()).text);
  await leave(sheet, JSON.stringify({ ...kept, drawings: { ...kept.drawings, "a/b.svg": "<svg/>" } }));
  await sheet.page.reload();
  await sheet.settled();
  assert.match((await sheet.texts("#result [role=status]")).join(" "), /"a\/b.svg" is no name for a drawing; give a plain file name/);
  assert.match(await sheet.written("Name of the quilt"), /^Harbour Garden/);
});

const ONCE = "This browser can't keep the sheet. Save it as a file before you close the page.";

const REFUSALS = {
  "throws at once": () => {
    IDBFactory.prototype.open = () => {
      throw new DOMException("refused by the test", "SecurityError");
    };
  },
  "fails to open": () => {
    IDBFactory.prototype.open = () => {
      const request = { error: new DOMException("refused by the test", "UnknownError") };
      setTimeout(() => request.onerror());
      return request;
    };
  },
  "has no room": () => {
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = function (...own) {
      // As a browser does it that finds no room: the request goes, and all of its transaction fails.
      const request = put.apply(this, own);
      Object.defineProperty(this.transaction, "error", { value: new DOMException("by the test", "QuotaExceededError") });
      this.transaction.abort();
      return request;
    };
  },
};

for (const [what, refuse] of Object.entries(REFUSALS)) {
  visit(
    `a store that ${what} is said once, and nothing is lost in the page`,
    async (sheet) => {
      await sheet.write("Top edge", "66");
      await sheet.says(ONCE);
      await sheet.press("Good");
      await sheet.write("Left edge", "81");
      await sheet.page.waitForFunction(() => document.querySelector(".head").textContent.includes("Not kept in this browser"));
      await sheet.solved();
      // Longer than the page waits before it keeps something.
      await sheet.page.evaluate(() => new Promise((done) => setTimeout(done, 600)));
      assert.deepEqual(await sheet.texts("[role=alert]"), []);
      assert.deepEqual(JSON.parse((await sheet.save()).text).plan.quilt, { width: "66", height: "81" });
    },
    { prepare: (page) => page.evaluateOnNewDocument(refuse) },
  );
}

const ELSEWHERE = "Another tab has changed this sheet since, and that one is kept. Reload to go on with it.";

visit("of two tabs the second to change is told and loses nothing, nor does the first", async (first, who) => {
  await first.settled();
  const second = await Worksheet.open(who);
  await second.write("Top edge", "66");
  await second.settled();
  // Told as soon as she comes back.
  await first.page.bringToFront();
  await first.says(ELSEWHERE);
  await first.write("Left edge", "81");
  await first.page.waitForFunction(() => document.querySelector(".head").textContent.includes("Not kept in this browser"));
  assert.equal(JSON.parse((await first.save()).text).plan.quilt.height, "81");
  const kept = async () => {
    const third = await Worksheet.open(who);
    await third.settled();
    const both = [await third.written("Top edge"), await third.written("Left edge")];
    await third.close();
    return both;
  };
  assert.deepEqual(await kept(), ["66", "80"]);
  // Unless she says so.
  await first.page.bringToFront();
  await first.press("Keep this one");
  await first.settled();
  assert.deepEqual(await first.texts("[role=alert]"), []);
  assert.deepEqual(await kept(), ["64 1/4", "81"]);
  await second.page.bringToFront();
  await second.says(ELSEWHERE);
  // What would be lost with it is asked for first.
  let asked = 0;
  second.page.on("dialog", (dialog) => {
    asked += 1;
    void dialog.accept();
  });
  await second.page.reload();
  assert.equal(asked, 1);
  await second.settled();
  assert.equal(await second.written("Left edge"), "81");
  await second.close();
});

test("where no worker starts it is said once, with what to do, and after two tries no more are made", async () => {
  // Where nothing is compiled, there is no WebAssembly either.
  const without = await launch("--js-flags=--jitless");
  const who = await visitor(without);
  let started = 0;
  const sheet = await Worksheet.open(who, { prepare: async (page) => page.on("workercreated", () => (started += 1)) });
  await sheet.says("Open this page in another browser: this one can't start what works the plan out");
  await sheet.settled();
  assert.equal(started, 2);
  await sheet.write("Top edge", "66");
  await sheet.settled();
  assert.equal(started, 2);
  assert.equal(JSON.parse((await sheet.save()).text).plan.quilt.width, "66");
  await sheet.close();
  await who.leave();
  await without.close();
});
