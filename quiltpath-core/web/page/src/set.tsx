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
        {all.map((piece, at) => {
          if (typeof piece === "string") return typeof all[at + 1] === "object" ? piece.replace(/\S+$/, "") : piece;
          // A fraction stays with the number before it; the rest of a text may wrap.
          const before = all[at - 1];
          return (
            <span class="whole">
              {typeof before === "string" && /\S+$/.exec(before)?.[0]}
              <span class="fr" data-above={piece[0]} data-below={piece[1]} />
            </span>
          );
        })}
      </span>
    </span>
  );
}
