// The picture, alive: its parts are kept by their keys, and only what differs is replaced.

import type { FoundKind, Picture } from "quiltpath";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { setLetters } from "../../core/store";

/** Letters are no smaller than this, in pixels of the screen. */
const LEAST_LETTERS = 12;

/** Parts that the order of stitching changes: they stay until that is known anew. */
const LATER = new Set(["numbers", "ends", "bobbins"]);

interface Props {
  picture: Picture;
  /** The parts by their keys, in the order of drawing. */
  parts: ReadonlyMap<string, string>;
  /** Whether the order of stitching is known. */
  fresh: boolean;
  kinds: FoundKind[];
  /** The numbers of kinds whose every place is shown. */
  all: ReadonlySet<number>;
  /** The number of the kind that is pointed at. */
  pointed: number | null;
  point: (number: number | null) => void;
  /** Goes to the line of a kind. */
  open: (number: number) => void;
}

interface Part {
  node: SVGGElement;
  markup: string;
  /** The markup between the data of its paths, and that data, in turn. */
  pieces: string[];
}

/** The data of a path within markup. */
const DATA = / d="([^"]*)"/;

/** Shows markup in a part. Most of what changes is the data of paths: where that is all, the elements
 * stay, which takes a fifth of the time. */
function show(part: Part, markup: string): void {
  const pieces = markup.split(DATA);
  const before = part.pieces;
  part.markup = markup;
  part.pieces = pieces;
  const paths = part.node.querySelectorAll("[d]");
  const alike =
    pieces.length === before.length &&
    pieces.length === 2 * paths.length + 1 &&
    pieces.every((piece, at) => at % 2 === 1 || piece === before[at]);
  if (!alike) {
    part.node.innerHTML = markup;
    return;
  }
  for (const [at, path] of paths.entries()) {
    const data = pieces[2 * at + 1]!;
    if (data !== before[2 * at + 1]) path.setAttribute("d", data);
  }
}

export function LivePicture(props: Props) {
  const { picture, parts, fresh, kinds, all, pointed, point, open } = props;
  const svg = useRef<SVGSVGElement>(null);
  const known = useRef(new Map<string, Part>());

  useLayoutEffect(() => {
    if (svg.current) patch(svg.current, known.current, parts, fresh);
  }, [parts, fresh]);

  useLayoutEffect(() => {
    for (const pin of svg.current?.querySelectorAll<SVGGElement>(".pin") ?? []) {
      const number = Number(pin.dataset["number"]);
      const kind = kinds.find((kind) => kind.number === number);
      pin.setAttribute("tabindex", "0");
      pin.setAttribute("role", "link");
      pin.setAttribute("aria-label", `${number}, ${kind?.title ?? ""}`);
      pin.classList.toggle("all", all.has(number));
      pin.classList.toggle("pointed", pointed === number);
    }
  }, [parts, kinds, all, pointed]);

  // Lines keep their width in pixels, and letters a size that can be read, however wide it is.
  useEffect(() => {
    const drawn = svg.current;
    if (!drawn) return;
    const fit = () => {
      const [, , w, h] = picture.quilt;
      const steps = Math.max(w / drawn.clientWidth, h / drawn.clientHeight);
      if (!Number.isFinite(steps) || steps <= 0) return;
      drawn.style.setProperty("--px", steps.toFixed(3));
      const high = picture.letters / steps;
      // Room for measures grows with the letters, so larger steps than this come in two.
      const wanted = Math.round(Math.max(16, Math.min(46, now(picture) * (high / LEAST_LETTERS))));
      if (Math.abs(wanted - now(picture)) > 2) setLetters(wanted);
    };
    fit();
    const watch = new ResizeObserver(fit);
    watch.observe(drawn);
    return () => watch.disconnect();
  }, [picture]);

  const pinAt = (event: Event) => {
    const pin = (event.target as Element).closest?.<SVGGElement>(".pin");
    return pin ? Number(pin.dataset["number"]) : null;
  };
  return (
    <svg
      ref={svg}
      class="live"
      viewBox={picture.quilt.join(" ")}
      style={{ "--em": `${picture.letters}px` }}
      role="group"
      aria-label="The quilt as it will be stitched"
      onMouseOver={(event) => point(pinAt(event))}
      onMouseLeave={() => point(null)}
      onFocusIn={(event) => point(pinAt(event))}
      onFocusOut={() => point(null)}
      onClick={(event) => {
        const number = pinAt(event);
        if (number !== null) open(number);
      }}
      onKeyDown={(event) => {
        const number = pinAt(event);
        if (number !== null && (event.key === "Enter" || event.key === " ")) {
          event.preventDefault();
          open(number);
        }
      }}
    />
  );
}

/** How many letters high the longer side of the quilt is: the grid has 6000 steps there. */
function now(picture: Picture): number {
  return 6000 / picture.letters;
}

/** Brings the elements to the parts, in their order. */
function patch(
  drawn: SVGSVGElement,
  known: Map<string, Part>,
  parts: ReadonlyMap<string, string>,
  fresh: boolean,
): void {
  for (const [key, { node }] of known) {
    if (parts.has(key) || (!fresh && LATER.has(key))) continue;
    node.remove();
    known.delete(key);
  }
  let before: ChildNode | null = drawn.firstChild;
  for (const [key, markup] of parts) {
    let part = known.get(key);
    const stays = part !== undefined && !fresh && LATER.has(key);
    if (!part) {
      part = { node: document.createElementNS("http://www.w3.org/2000/svg", "g"), markup: "", pieces: [] };
      part.node.dataset["part"] = key;
      known.set(key, part);
    }
    if (!stays && markup !== part.markup) show(part, markup);
    if (part.node === before) before = before.nextSibling;
    else drawn.insertBefore(part.node, before);
  }
}
