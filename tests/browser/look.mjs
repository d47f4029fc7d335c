// Takes pictures of a page to look at: npm run look -- page.html folder

import { mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { SCHEMES, SCREENS, launch, open, print, show } from "./browser.mjs";

const [file, folder] = process.argv.slice(2).map((path) => resolve(path));
if (!folder) {
  console.error("give a page and a folder for its pictures");
  process.exit(2);
}
mkdirSync(folder, { recursive: true });
const browser = await launch();
try {
  const { page } = await open(browser, file);
  for (const screen of Object.keys(SCREENS)) {
    for (const scheme of SCHEMES) {
      await show(page, screen, scheme);
      const picture = await page.screenshot({ fullPage: true });
      writeFileSync(join(folder, `${screen}-${scheme}.png`), picture);
    }
  }
  writeFileSync(join(folder, "paper.pdf"), await print(page));
} finally {
  await browser.close();
}
