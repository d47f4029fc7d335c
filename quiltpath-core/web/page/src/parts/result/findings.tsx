// What to look at: two groups, one line a kind, with its pin, every place and the ways out.

import type { FoundKind, FoundLine } from "quiltpath";
import { Fragment } from "preact";
import { useState } from "preact/hooks";
import { make } from "../../core/make";
import { Says } from "../../says";

/** So many lines of a kind are shown before the rest is asked for. */
const FEW_LINES = 2;

interface Props {
  look: FoundKind[];
  know: FoundKind[];
  all: ReadonlySet<number>;
  setAll: (number: number, all: boolean) => void;
  pointed: number | null;
  point: (number: number | null) => void;
}

export function Findings(props: Props) {
  return (
    <div class="found">
      <h3>What to look at</h3>
      <Group {...props} name="To look at before you stitch" kinds={props.look} warn />
      <Group {...props} name="Good to know" kinds={props.know} warn={false} />
    </div>
  );
}

function Group(props: Props & { name: string; kinds: FoundKind[]; warn: boolean }) {
  const { name, kinds, warn } = props;
  return (
    <section class={warn && kinds.length > 0 ? "group warn" : "group"} aria-label={name}>
      <h4>
        <Sign warn={warn} /> {name} <small>{kinds.length > 0 ? kinds.length : "none"}</small>
      </h4>
      {kinds.map((kind) => (
        <Kind key={`${kind.code} ${kind.severity}`} {...props} kind={kind} warn={warn} />
      ))}
    </section>
  );
}

function Kind(props: Props & { kind: FoundKind; warn: boolean }) {
  const { kind, warn, all, setAll, pointed, point } = props;
  const [open, setOpen] = useState(false);
  const lines = open ? kind.lines : kind.lines.slice(0, FEW_LINES);
  const more = kind.lines.length - lines.length;
  const places = kind.lines.reduce((sum, line) => sum + line.places.length, 0);
  return (
    <div
      class={pointed === kind.number ? "sort pointed" : "sort"}
      id={`finding-${kind.number}`}
      tabIndex={-1}
      onMouseEnter={() => point(kind.number)}
      onMouseLeave={() => point(null)}
    >
      <Sign warn={warn} number={kind.number} />
      <div>
        {lines.map((line, at) => (
          <p key={line.says}>
            {at === 0 && <b>{kind.title}. </b>}
            <Says text={line.says} /> <About line={line} first={at === 0} />
            {line.ways.map((way) => (
              <Fragment key={way.says}>
                {" "}
                <button class="link" onClick={() => make(way.change, way.says.charAt(0).toLowerCase() + way.says.slice(1))}>
                  <Says text={way.says} />
                </button>
              </Fragment>
            ))}
          </p>
        ))}
        {(more > 0 || open || places > 1) && (
          <p class="opts">
            {(more > 0 || open) && kind.lines.length > FEW_LINES && (
              <button class="link" aria-expanded={open} onClick={() => setOpen(!open)}>
                {open ? "Show fewer lines" : `Read ${more} more`}
              </button>
            )}
            {places > 1 && (
              <button
                class="link"
                aria-pressed={all.has(kind.number)}
                onClick={() => setAll(kind.number, !all.has(kind.number))}
              >
                {all.has(kind.number) ? "Show the first alone" : `Show all ${places}`}
              </button>
            )}
          </p>
        )}
      </div>
    </div>
  );
}

/** What a line is about, and how many places it has. */
function About({ line, first }: { line: FoundLine; first: boolean }) {
  const names = line.about;
  const shown = names.length > 3 ? [...names.slice(0, 3), `${names.length - 3} more`] : names;
  const places = line.places.length;
  return (
    <small>
      {shown.join(", ")}
      {first && places > 1 && `${shown.length > 0 ? "; " : ""}${places} places`}
    </small>
  );
}

/** A triangle to look at, a circle to know; with its number where it has one. */
function Sign({ warn, number }: { warn: boolean; number?: number }) {
  const box = number === undefined ? "-12.5 -13 25 25" : "-14 -14 28 28";
  return (
    <svg class={warn ? "sign look" : "sign know"} viewBox={box} aria-hidden={number === undefined}>
      {number !== undefined && <title>{number}</title>}
      {warn ? <path d="M0-11L11 9H-11Z" /> : <circle r="10" />}
      {number !== undefined && <text y={warn ? 6.5 : 4.5}>{number}</text>}
    </svg>
  );
}
