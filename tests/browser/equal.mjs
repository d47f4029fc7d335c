// Files of the module against those of the command: byte for byte, or, where the platforms' sine and
// cosine differ in the last bit, in every number to 2e-9 of JSON and to the last figure of other
// text, which has some numbers as JSON has them, and in all else.

import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";

const CLOSE = 2e-9;

/** Where two values differ by more than 2e-9, or at all in what is no number. */
export function difference(one, other, place = "") {
  if (typeof one === "number" && typeof other === "number") {
    return Math.abs(one - other) <= CLOSE ? null : `${place}: ${one} and ${other}`;
  }
  if (one && other && typeof one === "object" && typeof other === "object") {
    const keys = [...new Set([...Object.keys(one), ...Object.keys(other)])];
    for (const key of keys) {
      const found = difference(one[key], other[key], `${place}/${key}`);
      if (found) return found;
    }
    return null;
  }
  return one === other ? null : `${place}: ${one} and ${other}`;
}

/** Where two texts differ by more than a step of the last figure of a number. */
export function textDifference(one, other) {
  if (one === other) return null;
  const NUMBER = /-?\d+(?:\.\d+)?/g;
  const [rests, numbers] = [one, other].map((text) => [text.split(NUMBER), text.match(NUMBER) ?? []]).reduce(
    ([rests, numbers], [rest, number]) => [[...rests, rest], [...numbers, number]],
    [[], []],
  );
  const words = rests[0].findIndex((rest, at) => rest !== rests[1][at]);
  if (words >= 0 || rests[0].length !== rests[1].length) return `${rests[0][words]} and ${rests[1][words]}`;
  const step = (text) => 10 ** -(text.split(".")[1]?.length ?? 0);
  const at = numbers[0].findIndex((own, index) => {
    const theirs = numbers[1][index];
    return Math.abs(own - theirs) > Math.max(CLOSE, 1.01 * step(own), 1.01 * step(theirs));
  });
  return at < 0 ? null : `${numbers[0][at]} and ${numbers[1][at]}`;
}

/** Where a file differs from that of the command, both as text. */
export function fileDifference(name, one, other) {
  if (one === other) return null;
  if (name.endsWith(".json")) return difference(JSON.parse(one), JSON.parse(other));
  return textDifference(one, other);
}

/** All files below a folder as text, by their names from there. */
export function filesBelow(folder) {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  return new Map(files.sort().map((file) => [relative(folder, file), readFileSync(file, "utf8")]));
}
