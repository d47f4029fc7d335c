// The designs within the borders: of blocks, of the strips between them and where these cross, and
// of triangles at the edge.

import type { ComponentChildren } from "preact";
import { put, type Plan } from "../../core/document";
import { change, now } from "../../core/store";
import { Choose, Field } from "../../field";
import { Says } from "../../says";
import { Card } from "./card";
import { Ends } from "./ends";
import { Item } from "./item";
import { sideKeys, type Shown } from "./keys";
import { BLOCKS, CORNER_TRIANGLES, SASHES, SIDE_TRIANGLES, keyOf, placesOfBlocks, type Place } from "./places";
import { RepeatRows } from "./repeats";

/** How a design lies in other blocks: the word of the plan, and what it says. */
const LIES = [
  ["as_is", "as drawn in all"],
  ["alternate", "every other block mirrored"],
  ["pinwheel", "turned on, four by four"],
] as const;

interface Props {
  plan: Plan;
  shown: (place: Place) => Shown;
  take: (file: File, place: Place) => Promise<string | null>;
}

export function BlockCards({ plan, shown, take }: Props) {
  const blocks = plan["blocks"] as Plan;
  return (
    <div class="cards">
      {placesOfBlocks(plan).map((place) => {
        const own = { place, shown: shown(place), take: (file: File) => take(file, place) };
        if (place === SASHES) return <SashCard key={keyOf(place)} {...own} sashing={blocks.sashing} />;
        return (
          <DesignCard key={keyOf(place)} {...own} design={place.path.slice(1).reduce((at, key) => at?.[key], blocks)}>
            {place === BLOCKS && <Lies lie={blocks.lie} />}
          </DesignCard>
        );
      })}
    </div>
  );
}

interface CardProps {
  place: Place;
  shown: Shown;
  take: (file: File) => Promise<string | null>;
}

/** What becomes of a place that has no design. */
function Without({ place }: { place: Place }) {
  const cut = place === SIDE_TRIANGLES || place === CORNER_TRIANGLES;
  return <Item name="Without">{cut ? "The design of the blocks is cut to them." : "They stay plain."}</Item>;
}

function takeOut({ path, what }: Place) {
  change(put(now().doc, path, undefined), `no design for ${what}`);
}

function DesignCard(props: CardProps & { design: Plan | undefined; children: ComponentChildren }) {
  const { place, shown, take, design, children } = props;
  const drawing = shown && "seen" in shown ? shown.seen : null;
  return (
    <Card place={place} draws name={design?.motif || undefined} shown={shown} take={take} out={() => takeOut(place)}>
      {drawing && (
        <Item name="One line">
          <Says text={drawing.one_line} />
        </Item>
      )}
      {children}
      {!design?.motif && <Without place={place} />}
    </Card>
  );
}

function Lies({ lie }: { lie: string | undefined }) {
  return (
    <Item name="Lies">
      <Choose
        name="lies"
        label="How the design lies in the blocks"
        value={(lie ?? "as_is") as (typeof LIES)[number][0]}
        among={LIES.map(([word, says]) => [word, says])}
        onChoose={(word) =>
          change(
            put(now().doc, ["blocks", "lie"], word === "as_is" ? undefined : word),
            `blocks ${LIES.find(([own]) => own === word)![1]}`,
          )
        }
      />
    </Item>
  );
}

function SashCard({ place, shown, take, sashing }: CardProps & { sashing: Plan }) {
  const side = sideKeys(sashing.side);
  const drawing = shown && "seen" in shown ? shown.seen : null;
  const write = (text: string, merge: boolean) =>
    change(put(now().doc, ["blocks", "sashing", "slack"], text || undefined), `sashes shallower by up to ${text || "nothing"}`, merge);
  return (
    <Card place={place} draws name={side.motif || undefined} shown={shown} take={take} out={() => takeOut(place)}>
      {drawing && (
        <>
          <Ends of={place} seen={drawing} own={side} />
          <Item name="One line">
            <Says text={drawing.one_line} />
          </Item>
        </>
      )}
      {side.motif && (
        <>
          <RepeatRows place={place} side={side} />
          <Item name="Room">
            The band may get shallower by up to{" "}
            <Field
              label="The band of the sashes may get shallower by up to"
              value={sashing.slack}
              place={["blocks", "sashing", "slack"]}
              blank="nothing"
              wide={5}
              onWrite={write}
            />
          </Item>
        </>
      )}
      {!side.motif && <Without place={place} />}
    </Card>
  );
}
