// Puts the worksheet together: one HTML file that holds style, scripts and the module, and asks the
// network for nothing. Its own policy forbids that.

import { build } from "esbuild";
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";

const page = dirname(fileURLToPath(import.meta.url));
const root = join(page, "../../..");
const parcel = process.env.QUILTPATH_PACKAGE ?? join(root, "target/web/package");
const out = process.env.QUILTPATH_OUT ?? join(root, "target/web");

/** A script in one piece. */
async function script(entry) {
  const made = await build({
    absWorkingDir: page,
    entryPoints: [entry],
    bundle: true,
    minify: true,
    write: false,
    format: "iife",
    target: "es2022",
    charset: "utf8",
    legalComments: "none",
    alias: { quiltpath: join(parcel, "quiltpath.js") },
    define: { "import.meta.url": "undefined" },
    logLevel: "warning",
  });
  return made.outputFiles[0].text;
}

/** Text that may stand in a script element. */
const inScript = (text) => text.replaceAll("<", "\\u003c");

/** The demo, an invented quilt, in one file. */
function example(name) {
  const demo = join(root, "fixtures/demo");
  const plan = JSON.parse(readFileSync(join(demo, `${name}.json`), "utf8"));
  const drawings = {};
  for (const border of plan.borders) {
    for (const motif of [border.corner.motif, border.side.motif]) {
      if (motif) drawings[motif] = readFileSync(join(demo, motif), "utf8");
    }
  }
  return { plan, drawings };
}

const { look } = await import(join(parcel, "quiltpath.js")).then(async (core) => {
  await core.default({ module_or_path: readFileSync(join(parcel, "quiltpath_bg.wasm")) });
  return { look: core.look() };
});
const styles = ["page.css", ...readdirSync(join(page, "src/style")).sort().map((name) => `style/${name}`)];
const style = [look, ...styles.map((name) => readFileSync(join(page, "src", name), "utf8"))].join("\n");
const module = gzipSync(readFileSync(join(parcel, "quiltpath_bg.wasm")), { level: 9 });
const [main, worker] = await Promise.all([script("src/main.tsx"), script("src/core/worker.ts")]);
const examples = { demo: example("plan") };

// Every script that runs is known by its hash, so nothing that a file brings can run.
const runs = main.replaceAll("</script", "<\\/script");
const hash = createHash("sha256").update(runs).digest("base64");
const policy = [
  "default-src 'none'",
  "style-src 'unsafe-inline'",
  `script-src 'sha256-${hash}' 'wasm-unsafe-eval'`,
  "worker-src blob:",
  "img-src data: blob:",
  "base-uri 'none'",
  "form-action 'none'",
].join("; ");
const html = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Worksheet</title>
<style>${style}</style>
</head>
<body>
<div id="sheet"><noscript>This page needs JavaScript: it works everything out by itself.</noscript></div>
<script type="application/json" id="examples">${inScript(JSON.stringify(examples))}</script>
<script type="text/plain" id="worker">${inScript(JSON.stringify(worker))}</script>
<script type="text/plain" id="module">${module.toString("base64")}</script>
<script>${runs}</script>
</body>
</html>
`;
writeFileSync(join(out, "quiltpath.html"), html);
const packed = gzipSync(html).length;
console.error(`page: ${(html.length / 1024).toFixed(0)} KiB, packed ${(packed / 1024).toFixed(0)} KiB`);
