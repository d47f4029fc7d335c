// What lies in the middle of a border's sides, between two groups of as many repeats: a motif of its
// own, a plain length, or both.

import { useState } from "preact/hooks";
import { put } from "../../core/document";
import { change, now, useStore } from "../../core/store";
import { Choose, Field } from "../../field";
import { Says } from "../../says";
import { Card } from "./card";
import { Ends } from "./ends";
import { FileLink } from "./file";
import { Item } from "./item";
import { edit, type BorderKeys, type End, type Shown, type SideKeys } from "./keys";
import { centreOf, sidesOf } from "./places";

const SPACERS = [
  ["none", "repeats all along"],
  ["rest", "what is left over, nothing stretched"],
  ["length", "so much:"],
] as const;

/** Half an inch, or about as much, to begin with. */
const FIRST: { [unit: string]: string } = { in: "1/2", cm: "1", mm: "10" };

interface RowProps {
  at: number;
  side: SideKeys;
  /** Takes a drawing for the middle of the sides. */
  take: (file: File) => Promise<string | null>;
}

/** The plain length in the middle of each side, and the way to a motif there. */
export function MiddleRow({ at, side, take }: RowProps) {
  const { doc } = useStore("doc");
  const [said, setSaid] = useState<string | null>(null);
  const place = sidesOf(at, false);
  const { spacer } = side;
  if (typeof spacer === "object") return null;
  const kind = spacer === undefined ? "none" : spacer === "rest" ? "rest" : "length";
  const first = FIRST[(doc.plan["unit"] as string | undefined) ?? "in"];
  const taken = async (file: File | undefined) => setSaid(file ? await take(file) : null);
  return (
    <Item name="Middle">
      <Choose
        name={`spacer-${at}`}
        label="What is kept free in the middle of each side"
        value={kind}
        among={SPACERS.map(([word, says]) => [word, says])}
        onChoose={(word) =>
          edit(
            place,
            { spacer: { none: undefined, rest: "rest", length: first }[word] },
            { none: "no spacer", rest: "a spacer of what is left over", length: `a spacer of ${first}` }[word],
          )
        }
      />
      {kind === "length" && (
        <Field
          label="Plain length in the middle of each side"
          value={spacer}
          place={[...place.path, "spacer"]}
          wide={5}
          onWrite={(text, merge) => edit(place, { spacer: text === "" ? undefined : text }, `a spacer of ${text}`, merge)}
        />
      )}{" "}
      <FileLink take={(file) => void taken(file)}>Put a motif in the middle</FileLink>
      {said && <p role="status">{said}</p>}
    </Item>
  );
}

/** Whether the drawings of a border lie as they are drawn. */
export function LieRow({ at, border }: { at: number; border: BorderKeys }) {
  return (
    <Item name="Lies">
      <Choose
        name={`orientation-${at}`}
        label="How the drawings lie"
        value={border.orientation ?? "as_drawn"}
        among={[
          ["as_drawn", "as drawn"],
          ["best", "the way that joins best"],
        ]}
        onChoose={(word) =>
          change(
            put(now().doc, ["borders", at, "orientation"], word === "best" ? word : undefined),
            word === "best" ? "drawings lie the way that joins best" : "drawings lie as drawn",
          )
        }
      />
    </Item>
  );
}

interface Props {
  at: number;
  shown: Shown;
  take: (file: File) => Promise<string | null>;
}

/** The card of the motif in the middle of the sides. */
export function CentreCard({ at, shown, take }: Props) {
  const place = centreOf(at);
  const { doc } = useStore("doc");
  const side = (doc.plan["borders"] as { side?: { centre?: { motif?: unknown; start?: End; end?: End } } }[])[at]?.side;
  const motif = side?.centre?.motif;
  const drawing = shown && "seen" in shown ? shown.seen : null;
  return (
    <Card
      place={place}
      draws
      name={typeof motif === "string" ? motif : undefined}
      shown={shown}
      take={take}
      out={() => edit(sidesOf(at, false), { centre: undefined }, "nothing in the middle of the sides")}
    >
      {drawing && (
        <>
          <Ends of={place} seen={drawing} own={side?.centre ?? {}} />
          <Item name="One line">
            <Says text={drawing.one_line} />
          </Item>
        </>
      )}
    </Card>
  );
}
