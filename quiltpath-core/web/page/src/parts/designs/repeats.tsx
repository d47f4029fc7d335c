// What there is to choose of repeats, along sides or sashes: which are mirrored, where the stretch
// goes.

import { Choose } from "../../field";
import { Item } from "./item";
import { edit, type SideKeys } from "./keys";
import { keyOf, type Place } from "./places";

/** Which repeats are mirrored: the word of the plan, and what it says. */
const WAYS = [
  ["none", "as drawn"],
  ["left_right", "every other one mirrored"],
  ["top_bottom", "every other one upside down"],
  ["centred", "turned at the middle"],
] as const;

export function RepeatRows({ place, side }: { place: Place; side: SideKeys }) {
  return (
    <>
      <Item name="Repeats">
        <Choose
          name={`alternate-${keyOf(place)}`}
          label="Which repeats are mirrored"
          value={(side.alternate ?? "none") as (typeof WAYS)[number][0]}
          among={WAYS.map(([word, says]) => [word, says])}
          onChoose={(word) =>
            edit(place, { alternate: word === "none" ? undefined : word }, `repeats ${said(word)}`)
          }
        />
      </Item>
      <Item name="Stretch">
        <Choose
          name={`ease-${keyOf(place)}`}
          label="Where the stretch goes"
          value={side.ease ? "stems" : "even"}
          among={[
            ["even", "spread evenly"],
            ["stems", "into the stems, flowers stay round"],
          ]}
          onChoose={(where) =>
            edit(
              place,
              { ease: where === "stems" ? true : undefined },
              where === "stems" ? "stretch into the stems" : "stretch spread evenly",
            )
          }
        />
      </Item>
    </>
  );
}

function said(alternate: string): string {
  return WAYS.find(([word]) => word === alternate)?.[1] ?? alternate;
}
