// The design for the sides: its drawing, how it meets the corners, which repeats are mirrored.

import { useStore } from "../../core/store";
import { Choose } from "../../field";
import { Says } from "../../says";
import { Card } from "./card";
import { Ends } from "./ends";
import { Item } from "./item";
import { edit, onSides, type BorderKeys, type Shown, type Stitched } from "./keys";

/** Which repeats are mirrored: the word of the plan, and what it says. */
const WAYS = [
  ["none", "as drawn"],
  ["left_right", "every other one mirrored"],
  ["top_bottom", "every other one upside down"],
  ["centred", "turned at the middle"],
] as const;

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
  /** How it meets the corners. */
  meets: string | null;
  shown: Shown;
  take: (file: File) => Promise<string | null>;
}

export function SideCard({ at, border, meets, shown, take }: Props) {
  const side = border.side;
  const four = !useStore().doc.plan["quilt"]?.corners;
  const drawing = shown && "seen" in shown ? shown.seen : null;
  return (
    <Card
      at={at}
      title="For the sides"
      draws
      name={side.motif || undefined}
      shown={shown}
      take={take}
    >
      {drawing && (
        <>
          <Ends at={at} seen={drawing} own={side} />
          {meets && (
            <Item name="Meets">
              <Says text={meets} />
            </Item>
          )}
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
                at,
                "side",
                { motif: onSides(side.motif, sides) },
                `sides stitched: ${SIDES.find(([word]) => word === sides)?.[1]}`,
              )
            }
          />
        </Item>
      )}
      <Item name="Repeats">
        <Choose
          name={`alternate-${at}`}
          label="Which repeats are mirrored"
          value={(side.alternate ?? "none") as (typeof WAYS)[number][0]}
          among={WAYS.map(([word, says]) => [word, says])}
          onChoose={(word) =>
            edit(at, "side", { alternate: word === "none" ? undefined : word }, `repeats ${said(word)}`)
          }
        />
      </Item>
      <Item name="Stretch">
        <Choose
          name={`ease-${at}`}
          label="Where the stretch goes"
          value={side.ease ? "stems" : "even"}
          among={[
            ["even", "spread evenly"],
            ["stems", "into the stems, flowers stay round"],
          ]}
          onChoose={(where) =>
            edit(
              at,
              "side",
              { ease: where === "stems" ? true : undefined },
              where === "stems" ? "stretch into the stems" : "stretch spread evenly",
            )
          }
        />
      </Item>
    </Card>
  );
}

function said(alternate: string): string {
  return WAYS.find(([word]) => word === alternate)?.[1] ?? alternate;
}
