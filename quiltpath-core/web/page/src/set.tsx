// Text set as on paper: fractions with a bar, plain for those who listen.

import { pieces } from "./core/lengths";

/** A text whose fractions are stacked. */
export function Set({ text }: { text: string }) {
  const all = pieces(text);
  if (all.every((piece) => typeof piece === "string")) return <>{text}</>;
  return (
    <span class="set">
      <span class="unseen">{text}</span>
      <span aria-hidden="true">
        {all.map((piece) =>
          typeof piece === "string" ? (
            piece
          ) : (
            <span class="over">
              <i>{piece[0]}</i>
              <i>{piece[1]}</i>
            </span>
          ),
        )}
      </span>
    </span>
  );
}
