// Plans a quilt in node and says what comes out: `node plan.mjs DIRECTORY`, where plan.json and its
// drawings lie. It needs the package: `npm install ../../../target/web/package`.

import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { join } from "node:path";
import init, { Worksheet } from "quiltpath";

const folder = process.argv[2] ?? fileURLToPath(new URL("../../../fixtures/demo", import.meta.url));
await init({ module_or_path: readFileSync(fileURLToPath(import.meta.resolve("quiltpath/quiltpath_bg.wasm"))) });

const sheet = new Worksheet();
try {
  const text = readFileSync(join(folder, "plan.json"), "utf8");
  const drawings = JSON.parse(text).borders.flatMap((border) => [border.corner.motif, border.side.motif]);
  sheet.setPlan(text);
  for (const name of new Set(drawings.filter(Boolean))) sheet.setDrawing(name, readFileSync(join(folder, name)));
  const { pieces, totals } = JSON.parse(sheet.resultJson());
  console.log(`pieces: ${pieces.length}, passes: ${totals.passes}, stitches: ${totals.stitches}`);
} catch (fault) {
  // What is wrong with a plan or a drawing has a kind; anything else is ours.
  if (!fault.kind) throw fault;
  console.error(fault.place ? `${fault.place}: ${fault.reason}` : fault.reason);
  process.exitCode = 1;
} finally {
  sheet.free();
}
