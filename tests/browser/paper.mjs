// Reads a PDF as poppler does: how many pages, how large, and where its lines lie, in millimetres.

import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** PDF 32000-1, 8.3.2.3: a unit of user space is 1/72 inch. */
const MM = 25.4 / 72;

/** The words of each page of a PDF. */
export function words(pdf) {
  const options = { input: pdf, encoding: "utf8", maxBuffer: 1 << 26 };
  const text = execFileSync("pdftotext", ["-layout", "-", "-"], options);
  return text.split("\f").slice(0, -1);
}

/** The heights of letters on the pages of a PDF, to a third of a point, each with its words. */
export function letters(pdf) {
  // Poppler gives whole numbers, and enlarges no more than three times.
  const ZOOM = 3;
  const folder = mkdtempSync(join(tmpdir(), "quiltpath-"));
  try {
    const file = join(folder, "page.pdf");
    writeFileSync(file, pdf);
    const options = { encoding: "utf8", maxBuffer: 1 << 26 };
    const xml = execFileSync("pdftohtml", ["-xml", "-i", "-stdout", "-zoom", String(ZOOM), file], options);
    const fonts = new Map();
    for (const [, id, size] of xml.matchAll(/<fontspec id="(\d+)" size="(\d+)"/g)) fonts.set(id, Number(size) / ZOOM);
    return [...xml.matchAll(/<text [^>]*font="(\d+)"[^>]*>(.*?)<\/text>/g)].map(([, id, text]) => [fonts.get(id), text.replace(/<[^>]*>/g, "")]);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The pages of a PDF: `size` and `strokes`, each `{ width, points, curved, closed, box }`. */
export function pages(pdf) {
  const folder = mkdtempSync(join(tmpdir(), "quiltpath-"));
  try {
    const file = join(folder, "page.pdf");
    writeFileSync(file, pdf);
    const info = execFileSync("pdfinfo", [file], { encoding: "utf8" });
    const count = Number(/^Pages:\s+(\d+)$/m.exec(info)[1]);
    return Array.from({ length: count }, (_, at) => {
      const drawn = join(folder, "page.svg");
      const number = String(at + 1);
      execFileSync("pdftocairo", ["-svg", "-f", number, "-l", number, file, drawn]);
      return read(readFileSync(drawn, "utf8"));
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

function read(svg) {
  const [, width, height] = /<svg [^>]*viewBox="0 0 (\S+) (\S+)"/.exec(svg);
  const strokes = [];
  for (const [element] of svg.matchAll(/<path [^>]*stroke-width:[^>]*>/g)) {
    if (!element.includes("fill:none")) continue;
    const matrix = attribute(element, "transform") ?? "matrix(1,0,0,1,0,0)";
    const [a, b, c, d, e, f] = matrix.match(/-?[\d.]+(?:e-?\d+)?/g).map(Number);
    const data = attribute(element, "d");
    // Moves, lines and curves are all that poppler writes; all of them end in a point.
    const numbers = data.match(/-?[\d.]+(?:e-?\d+)?/g).map(Number);
    const points = [];
    for (let at = 0; at + 1 < numbers.length; at += 2) {
      const [x, y] = [numbers[at], numbers[at + 1]];
      points.push([(a * x + c * y + e) * MM, (b * x + d * y + f) * MM]);
    }
    const [xs, ys] = [points.map((p) => p[0]), points.map((p) => p[1])];
    strokes.push({
      width: Number(/stroke-width:([\d.]+)/.exec(element)[1]) * Math.hypot(a, b) * MM,
      points,
      curved: data.includes("C"),
      closed: data.includes("Z"),
      box: [least(xs), least(ys), -least(xs.map((x) => -x)), -least(ys.map((y) => -y))],
    });
  }
  return { size: [Number(width) * MM, Number(height) * MM], strokes };
}

function attribute(element, name) {
  return new RegExp(` ${name}="([^"]*)"`).exec(element)?.[1];
}

function least(numbers) {
  return numbers.reduce((a, b) => Math.min(a, b));
}

/** Width and height of a box. */
export function extent([left, top, right, bottom]) {
  return [right - left, bottom - top];
}
