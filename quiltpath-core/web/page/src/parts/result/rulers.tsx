// Room to give: rulers for the slack and the depth of a band, with the number typed beside.

import type { BorderSeen, LengthSaid, Seen } from "quiltpath";
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { number, step as stepOf, written } from "../../core/lengths";
import { make } from "../../core/make";
import { Says } from "../../says";
import { Set } from "../../set";

/** Millimetres in the units of plans. */
const MM = { in: 25.4, cm: 10, mm: 1 };

export function Rulers({ seen }: { seen: Seen }) {
  const mm = MM[seen.unit];
  const step = stepOf(seen.unit);
  return (
    <>
      <h3>Room to give</h3>
      {seen.borders.map((border, at) => (
        <div key={at}>
          {seen.borders.length > 1 && <h4 class="of">{border.name.charAt(0).toUpperCase() + border.name.slice(1).replace("-", " ")}</h4>}
          <Ruler
            label="The band may get shallower by up to"
            at={border.slack}
            least={0}
            most={border.most_slack.value}
            step={step}
            unit={seen.unit}
            fixed={border.begun}
            set={(value, says, merge) =>
              make(
                { change: "slack", border: at, slack: value * mm },
                `shallower by up to ${says}`,
                merge,
              )
            }
          />
          <Ruler
            label="Depth of the band"
            at={border.full}
            least={border.least.value}
            most={border.most.value}
            step={step}
            unit={seen.unit}
            fixed={border.begun}
            set={(value, says, merge) =>
              make({ change: "depth", border: at, depth: value * mm }, `band ${says} deep`, merge)
            }
          />
          <Used border={border} />
        </div>
      ))}
    </>
  );
}

/** What of the depth is used, where that is less. */
function Used({ border }: { border: BorderSeen }) {
  if (border.begun) return <p class="help">The border has begun, so its depth stays.</p>;
  if (border.depth.says === border.full.says) return null;
  return (
    <p class="help">
      Used: <Says text={border.depth.says} />, so that repeats need less stretch.
    </p>
  );
}

interface RulerProps {
  label: string;
  at: LengthSaid;
  least: number;
  most: number;
  step: number;
  unit: Seen["unit"];
  fixed: boolean;
  /** Sets it; `merge` where it goes on from the last, as in a drag. */
  set: (value: number, says: string, merge: boolean) => void;
}

function Ruler(props: RulerProps) {
  const { label, at, least, most, step, unit, fixed, set } = props;
  /** Where it was brought, until the plan is there. */
  const [dragged, drag] = useState<number | null>(null);
  const going = useRef(false);
  const snap = (value: number) => Math.min(most, Math.max(least, Math.round(value / step) * step));
  const put = (value: number, merge: boolean) => {
    const snapped = snap(value);
    drag(snapped);
    set(snapped, said(snapped, unit), merge);
  };
  const says = dragged === null ? at.says : said(dragged, unit);
  useEffect(() => {
    if (dragged !== null && !going.current && Math.abs(at.value - dragged) < step / 2) drag(null);
  }, [at.value, dragged]);
  return (
    <div class="ruler">
      <div class="said">
        <span>{label}</span>
        <Typed
          label={label}
          says={says}
          unit={unit}
          fixed={fixed}
          set={(value) => set(value, said(value, unit), false)}
        />
      </div>
      <input
        type="range"
        aria-label={label}
        aria-valuetext={says}
        min={least}
        max={most}
        step="any"
        value={dragged ?? at.value}
        disabled={fixed}
        onInput={(event) => {
          put(event.currentTarget.valueAsNumber, going.current);
          going.current = true;
        }}
        onChange={() => {
          going.current = false;
          drag(null);
        }}
        onBlur={() => drag(null)}
        onKeyDown={(event) => {
          const way = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
          if (way === undefined) return;
          event.preventDefault();
          const from = dragged ?? at.value;
          put(from + way * (event.shiftKey ? (unit === "mm" ? 10 : 1) : step), false);
        }}
      />
      <Ticks least={least} most={most} unit={unit} />
    </div>
  );
}

/** The number beside a ruler, as she types it. */
function Typed(props: {
  label: string;
  says: string;
  unit: Seen["unit"];
  fixed: boolean;
  set: (value: number) => void;
}) {
  const { label, says, unit, fixed, set } = props;
  const [typed, setTyped] = useState<string | null>(null);
  const hinted = useId();
  const bad = typed !== null && number(typed, unit) === null;
  const leave = () => {
    const value = typed === null ? null : number(typed, unit);
    if (value !== null && typed !== says) set(value);
    setTyped(null);
  };
  return (
    <label class={bad ? "field wrong" : "field"} style={{ "--wide": 7 }}>
      <input
        aria-label={`${label}, typed`}
        aria-describedby={bad ? hinted : undefined}
        inputMode="text"
        autocomplete="off"
        disabled={fixed}
        aria-invalid={bad}
        value={typed ?? says}
        onFocus={(event) => {
          setTyped(says);
          event.currentTarget.select();
        }}
        onInput={(event) => setTyped(event.currentTarget.value)}
        onBlur={leave}
        onKeyDown={(event) => {
          if (event.key === "Enter") event.currentTarget.blur();
          if (event.key === "Escape") setTyped(says);
        }}
      />
      <output aria-hidden="true">
        <Set text={says} />
      </output>
      {bad && (
        <small class="hint" id={hinted} role="status">
          Write it as 5 1/4 or 5.25
        </small>
      )}
    </label>
  );
}

/** Marks along a ruler: at quarters of an inch, or 5 mm; numbers at whole ones. */
function Ticks({ least, most, unit }: { least: number; most: number; unit: Seen["unit"] }) {
  const fine = unit === "in" ? 1 / 4 : unit === "cm" ? 0.5 : 5;
  const whole = fine * (unit === "in" ? 4 : unit === "cm" ? 2 : 4);
  const count = Math.floor((most - least) / fine + 1e-9);
  const first = Math.ceil(least / fine - 1e-9) * fine;
  const marks = Array.from({ length: count + 1 }, (_, at) => first + at * fine);
  const share = (value: number) => (value - least) / (most - least || 1);
  const shown = marks.filter((mark) => mark <= most + 1e-9);
  const numbers = shown.filter((mark) => Math.abs(mark / whole - Math.round(mark / whole)) < 1e-6);
  const isWhole = (mark: number) => numbers.includes(mark);
  const path = shown.map((mark) => `M${share(mark) * 1000} 0V${isWhole(mark) ? 10 : 6}`).join("");
  return (
    <span class="scale-of" aria-hidden="true">
      <svg viewBox="0 0 1000 12" preserveAspectRatio="none">
        <path d={path} />
      </svg>
      {numbers.map((mark) => (
        <i key={mark} style={{ left: `${share(mark) * 100}%` }}>
          {Math.round(mark * 100) / 100}
        </i>
      ))}
    </span>
  );
}

/** A length for the name of a step. */
function said(value: number, unit: Seen["unit"]): string {
  return `${written(value, unit)} ${unit}`;
}
