// The worksheet in a real browser as people use it: by mouse, by touch or by keyboard alone.

import assert from "node:assert/strict";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { unpacked } from "./archive.mjs";
import { open, violations } from "./browser.mjs";
import { ROOT } from "./command.mjs";

export const PAGE = join(process.env.QUILTPATH_WEB ?? join(ROOT, "target/web"), "quiltpath.html");

/** Widths of a phone, a tablet and a laptop, in CSS pixels. */
export const WIDTHS = [390, 820, 1440];

const LONG = 60_000;

/** A browser's store of its own, in which files are saved to a folder. */
export async function visitor(browser) {
  const saved = mkdtempSync(join(tmpdir(), "quiltpath-saved-"));
  const context = await browser.createBrowserContext({
    downloadBehavior: { policy: "allow", downloadPath: saved },
  });
  return {
    context,
    saved,
    async leave() {
      await context.close();
      rmSync(saved, { recursive: true });
    },
  };
}

/** Which way the Tab key gets from where the keyboard is to an element. */
function wayTo(element) {
  return element.evaluate((own) => {
    const here = document.activeElement;
    if (here === own) return "there";
    if (here?.type === "radio" && here.name === own.name) return "group";
    const back = own.compareDocumentPosition(here) & Node.DOCUMENT_POSITION_FOLLOWING;
    return here !== document.body && back ? "back" : "on";
  });
}

export class Worksheet {
  /** Opens the page for a visitor, once something of it is seen. */
  static async open(who, { width = 1440, scheme = "light", way = "mouse", fragment = "", prepare } = {}) {
    const { page, said } = await open(who.context, PAGE, fragment, prepare);
    const sheet = new Worksheet(who, page, said, way);
    const touch = way === "touch";
    await page.setViewport({ width, height: 900, hasTouch: touch, isMobile: touch });
    await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
    await page.waitForSelector("main[aria-busy=false]", { timeout: LONG });
    return sheet;
  }

  constructor(who, page, said, way) {
    Object.assign(this, { who, page, said, way });
  }

  /** The one element of this role and name, as those hear it who see nothing. */
  async the(role, name) {
    const found = await this.page.waitForSelector(`::-p-aria([role="${role}"][name="${name}"])`, { timeout: LONG });
    assert.ok(found, `no ${role} called ${name}`);
    return found;
  }

  /** Taps on an element, not waiting for the page between down and up: a slow one would take that for
   * a finger that is held. */
  async tap(element) {
    await element.scrollIntoView();
    const { x, y } = await element.clickablePoint();
    this.client ??= await this.page.createCDPSession();
    // The click comes after the finger is up, and may move what is tapped next.
    await this.page.evaluate(() => {
      window.tapped = new Promise((done) => {
        addEventListener("click", () => setTimeout(done), { capture: true, once: true });
      });
    });
    await Promise.all(
      [["touchStart", [{ x, y }]], ["touchEnd", []]].map(([type, touchPoints]) =>
        this.client.send("Input.dispatchTouchEvent", { type, touchPoints }),
      ),
    );
    await this.page.evaluate(() => window.tapped);
  }

  /** Clicks on an element; where the page moved it from under the pointer, she points again. */
  async click(element) {
    for (let tries = 0; tries < 3; tries += 1) {
      await element.evaluate((own) => {
        window.clicked = false;
        own.addEventListener("click", () => (window.clicked = true), { capture: true, once: true });
      });
      await element.click();
      if (await this.page.evaluate(() => window.clicked)) return;
    }
    throw new Error("what is clicked on keeps moving away");
  }

  /** Goes to an element, by what this visitor has. */
  async reach(element) {
    if (this.way === "mouse") return this.click(element);
    if (this.way === "touch") return this.tap(element);
    for (let steps = 0; steps < 400; steps += 1) {
      const way = await wayTo(element);
      if (way === "there") return undefined;
      await this.#tab(way);
    }
    throw new Error("the keyboard doesn't get there");
  }

  async #tab(way) {
    if (way === "back") await this.page.keyboard.down("Shift");
    await this.page.keyboard.press("Tab");
    if (way === "back") await this.page.keyboard.up("Shift");
  }

  /** Writes into a field and leaves it. */
  async write(name, text) {
    const field = await this.the("textbox", name);
    // A word that appears above it may move it from under the pointer: then she points again.
    for (let tries = 0; tries < 3; tries += 1) {
      await this.reach(field);
      if (await field.evaluate((own) => own === document.activeElement)) break;
    }
    await this.page.keyboard.down("Control");
    await this.page.keyboard.press("a");
    await this.page.keyboard.up("Control");
    if (text) await this.page.keyboard.type(text);
    else await this.page.keyboard.press("Delete");
    await this.page.keyboard.press("Enter");
    return field;
  }

  /** What stands in a field. */
  async written(name) {
    return (await this.the("textbox", name)).evaluate((own) => own.value);
  }

  /** Presses a button. */
  async press(name) {
    const button = await this.the("button", name);
    await this.reach(button);
    if (this.way === "keyboard") await this.page.keyboard.press("Enter");
  }

  /** Takes one of several words. */
  async take(name) {
    const radio = await this.the("radio", name);
    if (this.way !== "keyboard") {
      const word = await radio.evaluateHandle((own) => own.closest("label"));
      return this.reach(word.asElement());
    }
    // A group is one stop of the Tab key; arrows choose in it.
    for (let steps = 0; steps < 400; steps += 1) {
      const way = await wayTo(radio);
      if (way === "there" && (await radio.evaluate((own) => own.checked))) return undefined;
      if (way === "group") await this.page.keyboard.press("ArrowRight");
      else await this.#tab(way);
    }
    throw new Error(`the keyboard doesn't get to ${name}`);
  }

  /** Ticks a box by its words, within the part of this class. */
  async tick(part, words) {
    const box = await this.page.$(`::-p-xpath(//*[contains(@class, "${part}")]//label[contains(., "${words}")]/input)`);
    await this.reach(this.way === "keyboard" ? box : (await box.evaluateHandle((own) => own.closest("label"))).asElement());
    if (this.way === "keyboard") await this.page.keyboard.press("Space");
    assert.ok(await box.evaluate((own) => own.checked), words);
  }

  /** Unfolds what lies under these words. */
  async unfold(words) {
    await this.reach(await this.the("DisclosureTriangle", words));
    if (this.way === "keyboard") await this.page.keyboard.press("Enter");
  }

  /** Chooses a file with the field of this name. */
  async choose(name, ...files) {
    const field = await this.page.waitForSelector(`input[type=file][aria-label="${name}"]`);
    await field.uploadFile(...files);
  }

  /** Chooses a drawing for the corners or the sides, on the card of this name. */
  async draw(card, file) {
    const asks = 'contains(., "Another") or contains(., "Choose a drawing")';
    const there = `//article[h3="${card}"]//label[${asks}]/input[@type="file"]`;
    const field = await this.page.waitForSelector(`::-p-xpath(${there})`);
    await field.uploadFile(file);
  }

  /** Waits until the page says something of this. */
  async says(words) {
    await this.page.waitForFunction(
      (own) => [...document.querySelectorAll("[role=alert]")].some((alert) => alert.textContent.includes(own)),
      { timeout: LONG },
      words,
    );
  }

  /** Waits until the last change is named with this. */
  async changed(words) {
    await this.page.waitForFunction(
      (own) => document.querySelector(".row-of").textContent.includes(own),
      { timeout: LONG },
      words,
    );
  }

  /** Waits until all is worked out. */
  async solved() {
    await this.page.waitForSelector("main[aria-busy=false]", { timeout: LONG });
  }

  /** Waits until all is worked out and the browser keeps it. */
  async settled() {
    await this.page.waitForFunction(
      () =>
        document.querySelector("main").ariaBusy === "false" &&
        document.querySelector(".head").textContent.includes("Kept in this browser"),
      { timeout: LONG },
    );
  }

  /** The texts of the elements that a selector finds. */
  texts(selector) {
    return this.page.$$eval(selector, (all) => all.map((own) => own.textContent.trim()));
  }

  /** What the browser saves when this is done. */
  async saved(doing) {
    const before = new Set(readdirSync(this.who.saved));
    await doing();
    for (let wait = 0; wait < LONG; wait += 50) {
      const fresh = readdirSync(this.who.saved).find((name) => !before.has(name) && !name.endsWith(".crdownload"));
      const path = fresh && join(this.who.saved, fresh);
      // The browser may make the file before it fills it.
      if (path && existsSync(path) && statSync(path).size > 0) {
        const bytes = readFileSync(path);
        rmSync(path);
        return { name: fresh, bytes };
      }
      await new Promise((done) => setTimeout(done, 50));
    }
    throw new Error(`nothing was saved; the page says: ${await this.texts("[role=alert], .head .more, .row-of")}`);
  }

  /** The sheet in its one file. */
  async save() {
    const { name, bytes } = await this.saved(() => this.press("Save"));
    return { name, text: bytes.toString("utf8") };
  }

  /** Opens "More" where it is closed. */
  async more() {
    const more = await this.the("button", "More");
    if ((await more.evaluate((own) => own.ariaExpanded)) !== "true") await this.press("More");
  }

  /** All files for the machine. */
  async saveAll() {
    await this.more();
    const { name, bytes } = await this.saved(() => this.press("Save all files for the machine"));
    return { name, files: unpacked(bytes) };
  }

  /** Nothing wider than the screen, nothing that axe-core finds. */
  async clean(place) {
    const [wide, room] = await this.page.evaluate(() => {
      const root = document.documentElement;
      return [root.scrollWidth, root.clientWidth];
    });
    assert.ok(wide <= room, `${place}: ${wide} px wide`);
    assert.deepEqual(await violations(this.page), [], place);
  }

  /** Closes the page, of which nothing was heard. */
  async close() {
    assert.deepEqual(this.said, []);
    await this.page.close();
  }
}
