// The design for the sides: its drawing, how it meets the corners, which sides have it.

import { useStore } from "../../core/store";
import { Choose, Field } from "../../field";
import { Says } from "../../says";
import { Card } from "./card";
import { Ends } from "./ends";
import { Item } from "./item";
import { LieRow, MiddleRow } from "./middle";
import { edit, onSides, type BorderKeys, type Shown, type Stitched } from "./keys";
import { sidesOf } from "./places";
import { RepeatRows } from "./repeats";
import { hasFourSides, runsRound } from "../quilt/shape";

/** Which sides are stitched, and what it says. */
const SIDES: [Exclude<Stitched, "other">, string][] = [
  ["all", "all"],
  ["top_bottom", "top and bottom"],
  ["left_right", "left and right"],
  ["none", "none, corners alone"],
];

interface Props {
  at: number;
  border: BorderKeys;
  shown: Shown;
  take: (file: File) => Promise<string | null>;
  /** Takes a drawing for the middle of the sides. */
  takeCentre: (file: File) => Promise<string | null>;
}

/** How the sides meet the corners, once that is worked out. */
function Meets({ at }: { at: number }) {
  const meets = useStore("seen").seen?.borders[at]?.meets;
  if (!meets) return null;
  return (
    <Item name="Meets">
      <Says text={meets} />
    </Item>
  );
}

export function SideCard({ at, border, shown, take, takeCentre }: Props) {
  const side = border.side;
  const { plan } = useStore("doc").doc;
  const round = runsRound(plan, at);
  const place = sidesOf(at, round);
  const four = hasFourSides(plan, at) && !plan["quilt"]?.corners;
  const drawing = shown && "seen" in shown ? shown.seen : null;
  return (
    <Card
      place={place}
      draws
      name={side.motif || undefined}
      shown={shown}
      take={take}
    >
      {drawing && (
        <>
          <Ends of={place} seen={drawing} own={side} />
          <Meets at={at} />
          <Item name="One line">
            <Says text={drawing.one_line} />
          </Item>
        </>
      )}
      {four && side.motif && (
        <Item name="Sides">
          <Choose
            name={`sides-${at}`}
            label="Which sides are stitched"
            value={side.stitched as (typeof SIDES)[number][0]}
            among={SIDES}
            onChoose={(sides) =>
              edit(
                place,
                { motif: onSides(side.motif, sides) },
                `sides stitched: ${SIDES.find(([word]) => word === sides)?.[1]}`,
              )
            }
          />
        </Item>
      )}
      {round && side.motif && (
        <Item name="Number">
          <Field
            label="How many repeats go round"
            value={side.repeats}
            place={[...place.path, "repeats"]}
            blank="as fits"
            wide={5}
            count
            onWrite={(text, merge) => {
              const repeats = text === "" ? undefined : /^\d+$/.test(text.trim()) ? Number(text) : text;
              edit(place, { repeats }, `${text || "as many as fit"} repeats round`, merge);
            }}
          />{" "}
          repeats round.
        </Item>
      )}
      <RepeatRows place={place} side={side} />
      {!round && side.motif && <MiddleRow at={at} side={side} take={takeCentre} />}
      {!round && side.motif && <LieRow at={at} border={border} />}
    </Card>
  );
}
