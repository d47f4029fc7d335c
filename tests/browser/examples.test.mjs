// The examples of the JavaScript package as they are run by those who install it: in node, and in a
// page that a server gives.

import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize, sep } from "node:path";
import { after, before, test } from "node:test";
import { promisify } from "node:util";
import { launch } from "./browser.mjs";
import { DEMO, ROOT, folder, quiltpath } from "./command.mjs";

const WEB = process.env.QUILTPATH_WEB ?? join(ROOT, "target/web");
const run = promisify(execFile);

let work;

before(() => {
  // As `npm install` of the package leaves it.
  work = folder();
  cpSync(join(ROOT, "quiltpath-core/web/examples"), work.path, { recursive: true });
  cpSync(join(WEB, "package"), join(work.path, "node_modules/quiltpath"), { recursive: true, dereference: true });
});

after(() => work?.remove());

test("plan.mjs says of the demo what the command does", async () => {
  quiltpath("plan", join(DEMO, "plan.json"), "--out", join(work.path, "out"));
  const { pieces, totals } = JSON.parse(readFileSync(join(work.path, "out/result.json"), "utf8"));
  const { stdout, stderr } = await run(process.execPath, ["plan.mjs", DEMO], { cwd: work.path });
  assert.equal(stdout, `pieces: ${pieces.length}, passes: ${totals.passes}, stitches: ${totals.stitches}\n`);
  assert.equal(stderr, "");
});

test("plan.mjs names the place of a length that is none", async () => {
  const plan = JSON.parse(readFileSync(join(DEMO, "plan.json"), "utf8"));
  plan.borders[0].width = "wide";
  mkdirSync(join(work.path, "wrong"));
  writeFileSync(join(work.path, "wrong/plan.json"), JSON.stringify(plan));
  for (const name of ["corner.svg", "border.svg"]) cpSync(join(DEMO, name), join(work.path, "wrong", name));
  await assert.rejects(run(process.execPath, ["plan.mjs", "wrong"], { cwd: work.path }), (error) => {
    assert.equal(error.code, 1);
    assert.match(error.stderr, /^borders\[0\]\.width: .*"wide"/);
    assert.equal(error.stdout, "");
    return true;
  });
});

const TYPES = { ".html": "text/html", ".js": "text/javascript", ".wasm": "application/wasm" };

/** Serves a folder to this machine alone. */
async function serve(place) {
  const server = createServer((request, response) => {
    const path = normalize(join(place, decodeURIComponent(new URL(request.url, "http://localhost").pathname)));
    try {
      assert.ok(path.startsWith(place + sep));
      const bytes = readFileSync(path);
      response.writeHead(200, { "content-type": TYPES[extname(path)] ?? "application/octet-stream" }).end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  return server;
}

test("plan.html shows a picture and asks only its own server", async () => {
  const server = await serve(work.path);
  const browser = await launch();
  try {
    const own = `http://127.0.0.1:${server.address().port}/`;
    const page = await browser.newPage();
    const said = [];
    page.on("console", (message) => said.push(message.text()));
    page.on("pageerror", (error) => said.push(error.message));
    page.on("request", (request) => {
      if (!request.url().startsWith(own) && !request.url().startsWith("data:")) said.push(request.url());
    });
    await page.goto(`${own}plan.html`);
    await page.waitForSelector("#picture svg path", { timeout: 10_000 });
    assert.match(await page.$eval("#said", (word) => word.textContent), /^1 pass, [1-9]\d+ stitches$/);
    assert.deepEqual(said, []);
  } finally {
    await browser.close();
    server.close();
  }
});
