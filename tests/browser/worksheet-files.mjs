// Files that the worksheet saves, held against those that the command writes of the same sheet.

import assert from "node:assert/strict";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { quiltpath } from "./command.mjs";
import { fileDifference, filesBelow } from "./equal.mjs";

/** The folder of the plan that the command makes of a saved sheet, below this place. */
export function folderOf(below, saved, name) {
  const place = join(below, name);
  mkdirSync(place, { recursive: true });
  writeFileSync(join(place, saved.name), saved.text);
  quiltpath("plan", join(place, saved.name), "--out", join(place, "out"));
  return join(place, "out");
}

/** The files that the page saved are those below a folder, no more and no fewer. */
export function sameFiles(own, theirs) {
  assert.deepEqual([...own.keys()].sort(), [...theirs.keys()].sort());
  for (const [file, text] of own) assert.equal(fileDifference(file, text, theirs.get(file)), null, file);
}

/** Saves the sheet and everything for the machine; the command has to write the same of it. */
export async function equalFiles(sheet, below, name) {
  await sheet.settled();
  const saved = await sheet.save();
  const theirs = filesBelow(folderOf(below, saved, name));
  const { name: archive, files } = await sheet.saveAll();
  assert.equal(archive, saved.name.replace(/\.quilt\.json$/, ".zip"));
  sameFiles(files, theirs);
  return { plan: JSON.parse(saved.text).plan, result: JSON.parse(files.get("result.json")) };
}
