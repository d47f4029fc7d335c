// A page that is loaded again in the middle of a word comes back with that word.

import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { launch } from "./browser.mjs";
import { Worksheet, visitor } from "./worksheet.mjs";

let browser;

before(async () => {
  browser = await launch();
});

after(() => browser?.close());

test("a reload in the middle of a word loses nothing", async () => {
  const who = await visitor(browser);
  const sheet = await Worksheet.open(who);
  // What was kept before, then a draft on top of that, more than once.
  await sheet.settled();
  for (const text of ["71 1/2", "72 3/4", "68"]) {
    const field = await sheet.the("textbox", "Top edge");
    await field.click();
    await sheet.page.keyboard.down("Control");
    await sheet.page.keyboard.press("a");
    await sheet.page.keyboard.up("Control");
    await sheet.page.keyboard.type(text);
    await sheet.page.reload();
    await sheet.settled();
    assert.equal(await sheet.written("Top edge"), text);
  }
  await sheet.close();
  await who.leave();
});
