// Part 3 of the worksheet: the result, its picture alive.

import { useEffect, useRef } from "preact/hooks";
import { useStore } from "../core/store";

/** The picture, each part of it replaced only when it is another. */
function Picture() {
  const { seen, parts } = useStore();
  const svg = useRef<SVGSVGElement>(null);
  const shown = useRef(new Map<string, { element: SVGGElement; markup: string }>());
  useEffect(() => {
    const root = svg.current;
    if (!root) return;
    const known = shown.current;
    let last: Element | null = null;
    for (const [key, markup] of parts) {
      let part = known.get(key);
      if (!part) {
        part = { element: document.createElementNS("http://www.w3.org/2000/svg", "g"), markup: "" };
        known.set(key, part);
      }
      if (part.markup !== markup) {
        part.element.innerHTML = markup;
        part.markup = markup;
      }
      const next: Element | null = last ? last.nextElementSibling : root.firstElementChild;
      if (next !== part.element) root.insertBefore(part.element, next);
      last = part.element;
    }
    for (const [key, part] of known) {
      if (!parts.has(key)) {
        part.element.remove();
        known.delete(key);
      }
    }
  }, [parts]);
  if (!seen) return null;
  const { picture } = seen;
  return (
    <svg
      ref={svg}
      class="live"
      viewBox={picture.quilt.join(" ")}
      style={{ "--px": String(picture.pixel) }}
      role="img"
      aria-label="The quilt with its borders and the line to be stitched"
    />
  );
}

export function Result() {
  const { said } = useStore();
  return (
    <section class="part" id="result" aria-labelledby="result-name">
      <header>
        <b>3</b>
        <h2 id="result-name">The result</h2>
      </header>
      <figure>
        <Picture />
        {said && <p role="status">{said.message}</p>}
      </figure>
    </section>
  );
}
