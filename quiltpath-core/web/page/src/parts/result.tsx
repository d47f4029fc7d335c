// Part 3 of the worksheet, the result: the picture alive, what to look at, how often the design
// repeats, room to give.

import type { Seen } from "quiltpath";
import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { Plan } from "../core/document";
import type { Said } from "../core/protocol";
import { useStore } from "../core/store";
import { Says } from "../says";
import { runsRound } from "./quilt/shape";
import { Findings } from "./result/findings";
import { LivePicture } from "./result/picture";
import { Rulers } from "./result/rulers";
import { Stretch } from "./result/stretch";
import { TotalsSaid } from "./result/totals";

/** What waits for the stitching waits no longer than this before it shows what is known. */
const SETTLES_MS = 300;

export function Result() {
  const { seen, said } = useStore("seen", "said");
  return (
    <section class="part" id="result" aria-labelledby="result-name">
      <header>
        <b>3</b>
        <h2 id="result-name">The result</h2>
        <p class="help">
          Every change shows at once. Choose how often the design repeats; the shorter the bar, the
          truer the design.
        </p>
      </header>
      {seen ? (
        <Shown seen={seen} />
      ) : (
        !said && <p class="help">Fill in parts 1 and 2; the result is drawn here.</p>
      )}
      {said && !seen && <Refused said={said} />}
    </section>
  );
}

/** Why there is no new result. */
function Refused({ said }: { said: Said }) {
  const { reason, file } = said;
  return (
    <p class="refused" role="status">
      {file && `${file}: `}
      <Says text={`${file ? reason : reason.charAt(0).toUpperCase() + reason.slice(1)}.`} />
    </p>
  );
}

function Shown({ seen }: { seen: Seen }) {
  const { doc, parts, timed, said } = useStore("doc", "parts", "timed", "said");
  const settled = useSettled(seen, timed);
  const [all, setAll] = useState<ReadonlySet<number>>(new Set());
  const [pointed, point] = useState<number | null>(null);
  const borders = (doc.plan["borders"] ?? []) as { side?: { opposite_alike?: boolean } }[];
  const alike = borders.map((border) => border.side?.opposite_alike === true);
  const round = borders.map((_, at) => runsRound(doc.plan, at));
  const kinds = useMemo(() => [...settled.look, ...settled.know], [settled]);
  // What follows from the plan alone is not drawn anew before that is worked out.
  const chosen = useMemo(
    () =>
      seen.borders.length > 0 && (
        <>
          <Stretch seen={seen} alike={alike} round={round} />
          <Rulers seen={seen} />
        </>
      ),
    [seen, alike.join(), round.join()],
  );
  const showAll = (number: number, on: boolean) => {
    const next = new Set(all);
    if (on) next.add(number);
    else next.delete(number);
    setAll(next);
  };
  const open = (number: number) => {
    const line = document.getElementById(`finding-${number}`);
    line?.scrollIntoView({ block: "nearest" });
    line?.focus({ preventScroll: true });
  };
  return (
    <div class="res">
      <figure>
        <LivePicture
          picture={seen.picture}
          parts={parts}
          fresh={timed !== null}
          kinds={kinds}
          all={all}
          pointed={pointed}
          point={point}
          open={open}
        />
        <Signs plan={doc.plan} />
      </figure>
      <div>
        {said && (
          <>
            <Refused said={said} />
            <p class="help">The picture is the last one that could be drawn.</p>
          </>
        )}
        <TotalsSaid seen={settled} fresh={timed !== null} />
        <Findings
          look={settled.look}
          know={settled.know}
          all={all}
          setAll={showAll}
          pointed={pointed}
          point={point}
        />
        {chosen}
      </div>
    </div>
  );
}

/** What was seen with its stitching, and until that is there what was seen before, for a while. */
function useSettled(seen: Seen, timed: Seen | null): Seen {
  const [settled, settle] = useState(timed ?? seen);
  useEffect(() => {
    if (timed) {
      settle(timed);
      return;
    }
    const late = setTimeout(() => settle(seen), SETTLES_MS);
    return () => clearTimeout(late);
  }, [seen, timed]);
  return settled;
}

/** What the two kinds of lines are, in words. */
function linesOf(plan: Plan): [string, string] {
  const { blocks, borders } = plan;
  const all = (borders ?? []) as Plan[];
  const cornered = all.some((border, at) => !runsRound(plan, at) && (border.corner?.style ?? "open") !== "open");
  const strong = [
    cornered && "corners",
    blocks?.sashing?.cornerstone && "cornerstones",
    blocks?.setting === "on_point" && !blocks.triangles?.plain && "triangles",
  ];
  const fine = [
    all.some((_, at) => !runsRound(plan, at)) && "sides",
    all.some((_, at) => runsRound(plan, at)) && "all the way round",
    blocks?.sashing?.side && "sashes",
    blocks?.block && "blocks",
  ];
  return [strong, fine].map((words) => words.filter(Boolean).join(", ")) as [string, string];
}

/** The signs of the picture by name. */
function Signs({ plan }: { plan: Plan }) {
  const [strong, fine] = linesOf(plan);
  const wave = "M1 8q6-9 12 0t12 0";
  return (
    <figcaption>
      <Sign name="start">
        <circle class="first" cx="8" cy="8" r="5" />
      </Sign>
      <Sign name="end">
        <path class="last" d="M4 4h8v8H4z" />
      </Sign>
      <Sign name="which way">
        <path class="way" d="M4 3l9 5-9 5z" />
      </Sign>
      {strong && (
        <Sign name={strong} wide>
          <path class="line corner" d={wave} />
        </Sign>
      )}
      {fine && (
        <Sign name={fine} wide>
          <path class="line side" d={wave} />
        </Sign>
      )}
      <Sign name="limits of the band" wide>
        <path class="band" d="M1 8h24" />
      </Sign>
    </figcaption>
  );
}

function Sign(props: { name: string; wide?: boolean; children: ComponentChildren }) {
  return (
    <span>
      <svg
        class={props.wide ? "ic wide" : "ic"}
        viewBox={props.wide ? "0 0 26 16" : "0 0 16 16"}
        aria-hidden="true"
      >
        {props.children}
      </svg>{" "}
      {props.name}
    </span>
  );
}
