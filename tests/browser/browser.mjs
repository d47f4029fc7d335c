// Opens pages in headless Chromium and checks what holds for every page that quiltpath writes:
// nothing loaded, nothing complained about, accessible, no wider than the screen, true on paper.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Screens that pages are checked and looked at on, in CSS pixels. */
export const SCREENS = {
  phone: { width: 390, height: 844 },
  laptop: { width: 1280, height: 800 },
};

export const SCHEMES = ["light", "dark"];

/** Draws without a graphics card that isn't there, and compiles the module once, quickly, rather than
 * a second time for speed: a fifth of the tests' time. */
const QUICK = ["--disable-gpu", "--js-flags=--liftoff-only"];

/** Starts the browser with these flags; the environment variable CHROMIUM names another than Debian's. */
export function launch(...flags) {
  return start([...QUICK, ...flags]);
}

/** Starts it as people have it, to time a page. */
export function launchAsIs() {
  return start([]);
}

function start(flags) {
  // Chromium refuses its sandbox to root, which is who runs in most containers.
  const root = process.getuid?.() === 0;
  return puppeteer.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: [...(root ? ["--no-sandbox"] : []), ...flags],
  });
}

/**
 * Opens a file, if wanted with a fragment; what it asks the network for and what the console says is
 * kept in `said`. A worker or a picture that the page itself made comes from no network. What is
 * to be done with the page before it loads does `prepare`.
 */
export async function open(browser, file, fragment = "", prepare = async () => {}) {
  const page = await browser.newPage();
  await prepare(page);
  const address = pathToFileURL(file).href + fragment;
  const said = [];
  page.on("request", (request) => {
    const own = request.url() === address || request.url().startsWith("blob:null/");
    if (!own) said.push(`request: ${request.url()}`);
  });
  page.on("console", (message) => said.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => said.push(`error: ${error.message}`));
  const response = await page.goto(address, { waitUntil: "load" });
  assert.ok(response.ok(), `${file} does not open`);
  return { page, said };
}

/** Sets screen and colour scheme. */
export async function show(page, screen, scheme) {
  await page.setViewport(SCREENS[screen]);
  await page.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
}

/** Prints as the page itself asks for, 100 %: on its own paper, or on this where it takes any. */
export function print(page, paper) {
  return page.pdf({ preferCSSPageSize: true, format: paper ?? "letter" });
}

/** Checks a page and returns it printed on this paper. */
export async function checkedPrint(browser, file, paper) {
  return (await checkedPrints(browser, file, [paper]))[0];
}

/** Checks a page and returns it printed on each of these papers. */
export async function checkedPrints(browser, file, papers) {
  const { page, said } = await open(browser, file);
  for (const screen of Object.keys(SCREENS)) {
    for (const scheme of SCHEMES) {
      await show(page, screen, scheme);
      const place = `${file} on a ${screen}, ${scheme}`;
      const [wide, room] = await page.evaluate(() => {
        const root = document.documentElement;
        return [root.scrollWidth, root.clientWidth];
      });
      assert.ok(wide <= room, `${place}: ${wide} px wide`);
      assert.deepEqual(await violations(page), [], place);
    }
  }
  const pdfs = [];
  for (const paper of papers) pdfs.push(await print(page, paper));
  assert.deepEqual(said, [], file);
  await page.close();
  return pdfs;
}

/** What axe-core finds against WCAG and good practice, each with the elements concerned. */
export async function violations(page) {
  // Its rules run in the page, whose own policy forbids scripts that the page itself would load.
  await page.evaluate(axe);
  const found = await page.evaluate(() => globalThis.axe.run());
  assert.ok(found.passes.length > 10, "axe-core had nothing to look at");
  return found.violations.map(
    (rule) => `${rule.id}: ${rule.help}: ${rule.nodes.map((node) => node.html).join(" ")}`,
  );
}
