// Sentences of the core with their fractions set as on paper; read aloud they are plain text.

import { Fragment } from "preact";

/** A whole number before it, the figures, and a unit right after it. */
const FRACTION = /(?:(\d+) )?(\d+)\/(\d+)( (?:in|ft|yd|cm|mm|m)\b)?/g;

export function Says({ text }: { text: string }) {
  const parts = [];
  let from = 0;
  for (const found of text.matchAll(FRACTION)) {
    const [all, whole, above, below, unit] = found;
    parts.push(text.slice(from, found.index));
    parts.push(
      <span class="set">
        <span class="unseen">{all}</span>
        <span aria-hidden="true">
          {whole}
          <span class="fr" data-above={above} data-below={below} />
          {unit}
        </span>
      </span>,
    );
    from = found.index + all.length;
  }
  parts.push(text.slice(from));
  return (
    <>
      {parts.map((part, at) => (
        <Fragment key={at}>{part}</Fragment>
      ))}
    </>
  );
}
