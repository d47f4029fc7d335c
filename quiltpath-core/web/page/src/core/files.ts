// Files in and out of the page: one file saved and opened, all files of the plan as an archive, a
// plan in a link.

import { deflateSync, inflateSync, strToU8, strFromU8, zipSync } from "fflate";
import { type Doc, brought, kept } from "./document";
import { client, now } from "./store";

/** Hands a file to the browser to be saved. */
export function save(name: string, content: BlobPart, type: string) {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

/** Files as one archive, or the one file there is. */
export function saveAll(name: string, files: [string, Uint8Array][]) {
  if (files.length === 1) return save(files[0]![0].split("/").pop()!, files[0]![1] as BlobPart, "application/octet-stream");
  // One time for all: the same plan gives the same archive.
  const entries = Object.fromEntries(files.map(([own, bytes]) => [own, [bytes, { mtime: "1980-01-01" }] as const]));
  save(`${name}.zip`, zipSync(entries as never, { level: 6 }) as BlobPart, "application/zip");
}

/** The name of files, by the title, as the core makes it. */
export async function fileName(): Promise<string> {
  return client.ask<string>("fileName");
}

/** The quilt as one file. */
export async function saveSheet() {
  const name = await fileName().catch(() => "worksheet.quilt.json");
  save(name, kept(now().doc), "application/json");
}

/** Everything that is written of the plan. */
export async function saveEverything(formats: string[]) {
  const [name, files] = await Promise.all([fileName(), client.ask<[string, Uint8Array][]>("files", formats)]);
  saveAll(name.replace(/\.quilt\.json$/, ""), files);
}

/** What a link may hold: longer addresses don't get through everywhere. */
const MOST_LINK = 16_000;

/** The document in the fragment of a link; null where it is too large for one. */
export function linkTo(doc: Doc): string | null {
  const packed = deflateSync(strToU8(kept({ ...doc, before: null, progress: null })), { level: 9 });
  let text = "";
  for (const byte of packed) text += String.fromCharCode(byte);
  const fragment = btoa(text).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
  const address = `${location.href.split("#")[0]}#sheet=${fragment}`;
  return address.length > MOST_LINK ? null : address;
}

/** The document that a link brings, by its fragment. Throws what can't be read. */
export function linked(hash: string): Doc {
  const found = /^#sheet=([\w-]+)$/.exec(hash);
  if (!found) throw new Error("no base64");
  const text = atob(found[1]!.replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(text, (c) => c.charCodeAt(0));
  // A plan in a link is small; what unpacks to more is none.
  const room = new Uint8Array(4 << 20);
  return brought(strFromU8(inflateSync(bytes, { out: room })));
}
