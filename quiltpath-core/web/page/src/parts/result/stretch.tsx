// How often the design repeats: bars of stretch to choose from, one repeat drawn at each.

import type { NumberChoice, Seen, SideSeen } from "quiltpath";
import { Fragment } from "preact";
import { useState } from "preact/hooks";
import { make } from "../../core/make";
import { Says } from "../../says";
import { Choose } from "../../field";

/** The little drawing of a repeat has so much room along for a band 100 deep, or what it needs. */
const LITTLE = 260;

/** Half of a bar's room is so many times the limit. */
const LIMITS = 3;

interface Props {
  seen: Seen;
  /** Of each border, whether the plan gives opposite sides one number. */
  alike: boolean[];
  /** Of each border, whether it runs round without a corner. */
  round: boolean[];
}

export function Stretch({ seen, alike, round }: Props) {
  // Opposite sides that are alike are shown as one until she wants each by itself.
  const [apart, setApart] = useState(false);
  const several = seen.borders.length > 1;
  const paired = seen.groups.some((group) => group.sides.length > 1) || alike.some(Boolean);
  const even = seen.sides.length % 2 === 0;
  const together = !apart && paired;
  return (
    <>
      <h3>How often the design repeats</h3>
      {seen.borders.map((border, at) => (
        <Fragment key={at}>
          {several && <h4 class="of">{border.name.charAt(0).toUpperCase() + border.name.slice(1).replace("-", " ")}</h4>}
          {seen.sides.every((side) => side.border !== at) && <Whole round={round[at] === true} />}
          <div class="charts">
            {groupsOf(seen, at, together).map(({ title, members }) => (
              <Chart
                key={title}
                title={title}
                members={members}
                also={alike[at] ? opposite(seen, members) : members}
              />
            ))}
          </div>
        </Fragment>
      ))}
      {even && seen.sides.length > 0 && (
        <p class="opts">
          <span>Opposite sides</span>
          <Choose
            name="alike"
            label="Opposite sides"
            value={together ? "alike" : "own"}
            among={[
              ["alike", "alike"],
              ["own", "each its own"],
            ]}
            onChoose={(which) => setAlike(which === "alike")}
          />
        </p>
      )}
      {seen.sides.length > 0 && (
        <p class="key">
          To the right longer than drawn, to the left shorter. Past the dotted marks{" "}
          {limitSaid(seen)}, it shows.
        </p>
      )}
    </>
  );

  function setAlike(on: boolean) {
    setApart(!on);
    seen.borders.forEach((_, border) => {
      if (alike[border] !== on) {
        make({ change: "alike", border, alike: on }, on ? "opposite sides alike" : "each side its own");
      }
    });
  }
}

/** Of a border without sides to choose for. */
function Whole({ round }: { round: boolean }) {
  return (
    <p class="help whole-of">
      {round ? "It runs all the way round. Part 2 may say how often." : "No side of it has a design."}
    </p>
  );
}

function limitSaid(seen: Seen): string {
  const limit = seen.sides[0]?.limit ?? 0.1;
  return `at ${(limit * 100).toFixed(limit < 0.01 ? 1 : 0)} %`;
}

/** The sides of a border in groups, opposite ones together where they are alike. */
function groupsOf(seen: Seen, border: number, together: boolean) {
  if (together) {
    const groups = seen.groups.filter((group) => group.border === border);
    return groups.map(({ title, sides }) => ({
      title,
      members: sides.flatMap((at) => seen.sides[at] ?? []),
    }));
  }
  const sides = seen.sides.filter((side) => side.border === border);
  return sides.map((side) => ({ title: capital(side.name), members: [side] }));
}

/** These sides and those across from them. */
function opposite(seen: Seen, members: SideSeen[]): SideSeen[] {
  const border = members[0]?.border;
  const all = seen.sides.filter((side) => side.border === border);
  const across = members.map((side) => (side.side + all.length / 2) % all.length);
  return all.filter((side) => members.includes(side) || across.includes(side.side));
}

function Chart(props: {
  title: string;
  members: SideSeen[];
  also: SideSeen[];
}) {
  const { title, members, also } = props;
  const side = members[0];
  if (!side) return null;
  const name = `repeats-${side.border}-${side.side}`;
  const take = (repeats: number | null) => {
    const sides = also.map((side) => side.side);
    const said = `${title.toLowerCase()}, ${side.chosen} to ${repeats ?? "what fits best"}`;
    make({ change: "repeats", border: side.border, sides, repeats }, said);
  };
  return (
    <fieldset class="chart" disabled={side.begun}>
      <legend>
        {title}{" "}
        <small>
          <Says text={`${side.span.says} to fill`} />{members.length > 1 && ", each"}
        </small>
      </legend>
      {side.choices.map((choice) => (
        <Row
          key={choice.repeats}
          name={name}
          choice={choice}
          limit={side.limit}
          chosen={choice.repeats === side.chosen}
          take={() => take(choice.repeats)}
        />
      ))}
      {side.begun && <p class="help">It has begun, so its number stays.</p>}
      {side.given && !side.begun && (
        <p class="help">
          You chose {side.chosen}.{" "}
          <button class="link" onClick={() => take(null)}>
            Take what fits best
          </button>
        </p>
      )}
    </fieldset>
  );
}

function Row(props: {
  name: string;
  choice: NumberChoice;
  limit: number;
  chosen: boolean;
  take: () => void;
}) {
  const { name, choice, limit, chosen, take } = props;
  const share = Math.max(-1, Math.min(1, (choice.stretch - 1) / (LIMITS * limit)));
  const bar = { left: `${50 + Math.min(0, share) * 50}%`, width: `${Math.abs(share) * 50}%` };
  const said = percent(choice.stretch);
  const room = Math.max(LITTLE, choice.width);
  return (
    <label class={choice.within ? "row" : "row past"}>
      <input type="radio" name={name} value={choice.repeats} checked={chosen} onChange={take} />
      <span class="k">{choice.repeats}</span>
      <svg class="th" viewBox={`0 0 ${room} 100`} aria-hidden="true">
        <g transform={`translate(${((room - choice.width) / 2).toFixed(1)} 0)`}>
          <path class="line side" d={choice.path} />
        </g>
      </svg>
      <span class="bar" aria-hidden="true">
        <i style={bar} />
      </span>
      <span class="pc">
        {said}
        {!choice.within && <span class="unseen">, past the limit</span>}
      </span>
    </label>
  );
}

/** A stretch in percent, with a true minus. */
function percent(stretch: number): string {
  const value = Math.round((stretch - 1) * 1000) / 10;
  const sign = value < 0 ? "\u2212" : "+";
  return `${sign}${Math.abs(value).toFixed(1)}\u00a0%`;
}

function capital(name: string): string {
  const named = /^\d/.test(name) ? `side ${name}` : name;
  return named.charAt(0).toUpperCase() + named.slice(1);
}
