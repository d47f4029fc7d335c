// Reads the files in a zip archive, by its own list at the end (PKWARE's APPNOTE 4.3.12 and 4.3.16;
// from memory), so that the page's archives are read by other code than what wrote them.

import { inflateRawSync } from "node:zlib";

/** The files of an archive as text, by name. */
export function unpacked(bytes) {
  const end = bytes.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
  if (end < 0) throw new Error("no archive");
  const files = new Map();
  let at = bytes.readUInt32LE(end + 16);
  for (let count = bytes.readUInt16LE(end + 10); count > 0; count -= 1) {
    const [method, size] = [bytes.readUInt16LE(at + 10), bytes.readUInt32LE(at + 20)];
    const [name, extra, comment] = [28, 30, 32].map((field) => bytes.readUInt16LE(at + field));
    const local = bytes.readUInt32LE(at + 42);
    const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    const packed = bytes.subarray(start, start + size);
    const text = method === 0 ? packed : inflateRawSync(packed);
    files.set(bytes.toString("utf8", at + 46, at + 46 + name), text.toString("utf8"));
    at += 46 + name + extra + comment;
  }
  return files;
}
