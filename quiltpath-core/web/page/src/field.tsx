// A number or a word that she writes: the core reads it at each key, leaving it sets it as on paper.

import { useId, useRef, useState } from "preact/hooks";
import { type Unit, number, signed, signedText, snapped, step, written } from "./core/lengths";
import { useStore } from "./core/store";
import { Set } from "./set";

/** A key path as the core names it. */
export function placeOf(path: (string | number)[]): string {
  return path.map((key) => (typeof key === "number" ? `[${key}]` : `.${key}`)).join("").replace(/^\./, "");
}

export interface FieldProps {
  /** What it is, for those who listen. */
  label: string;
  value: unknown;
  /** Where the core says that something is wrong with it; none for words. */
  place?: (string | number)[];
  /** What is used where nothing is written. */
  blank?: string;
  /** The room that it takes, in figures. */
  wide: number;
  /** Whether it is a length, which steps by arrow keys. */
  length?: boolean;
  /** Whether it may lie below 0, as the place of something. */
  sign?: boolean;
  /** Whether it is a number of things, which steps by one. */
  count?: boolean;
  /** Whether it may have several lines, which Enter begins. */
  lines?: boolean;
  /** Puts down what is written; `merge` while the same field is written on. */
  onWrite(text: string, merge: boolean): void;
  id?: string;
  autofocus?: boolean;
}

export function Field({ label, value, place, blank, wide, length = true, sign, count, lines, onWrite, id }: FieldProps) {
  const Box = (lines ? "textarea" : "input") as "input";
  const { said, doc } = useStore("said", "doc");
  const [typed, setTyped] = useState<string | null>(null);
  const begun = useRef(false);
  const hinted = useId();
  const unit = (doc.plan.unit ?? "in") as Unit;
  const read = (own: unknown) => (sign ? signed : number)(own, unit);
  const text = typed ?? (value === undefined || value === null ? "" : String(value));
  const own = place ? placeOf(place) : null;
  const at = said?.place ?? null;
  const bad =
    own !== null && at !== null && text !== "" &&
    (at === own || (own.startsWith(at) && read(text) === null));
  const missing = own !== null && at === own && text === "" && !blank;
  const write = (next: string) => {
    setTyped(next);
    onWrite(next, begun.current);
    begun.current = true;
  };
  const keys = (event: KeyboardEvent) => {
    if (event.key === "Enter" && !lines) (event.target as HTMLElement).blur();
    const way = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (!length || !way) return;
    const now = read(text || blank);
    if (now === null) return;
    event.preventDefault();
    if (count) return write(String(Math.max(1, Math.round(now) + way)));
    const by = event.shiftKey ? (unit === "mm" ? 10 : 1) : step(unit);
    const next = now + way * by;
    write(sign ? signedText(next, unit) : written(Math.max(0, snapped(next, unit)), unit));
  };
  const how = count ? "Write a whole number, such as 5" : "Write it as 64 1/4 or 64.25";
  const hint = bad ? (read(text) === null && length ? how : said!.reason) : null;
  return (
    <label
      class={`field${lines ? " lines" : ""}${bad || missing ? " wrong" : ""}${text ? "" : " blank"}`}
      style={{ "--wide": wide }}
    >
      <Box
        id={id}
        aria-label={label}
        value={text}
        placeholder={blank ?? ""}
        inputMode="text"
        autocomplete="off"
        spellcheck={false}
        aria-invalid={bad || missing}
        aria-describedby={hint ? hinted : undefined}
        onFocus={(event) => {
          begun.current = false;
          setTyped(text);
          event.currentTarget.select();
        }}
        onInput={(event) => write(event.currentTarget.value)}
        onBlur={() => setTyped(null)}
        onKeyDown={keys}
      />
      <output aria-hidden="true">
        {lines ? `${text}\n` : <Set text={text} />}
      </output>
      {hint && (
        <small class="hint" id={hinted} role="status">
          {hint}
        </small>
      )}
    </label>
  );
}

/** Words to choose one from, a pen ring round the chosen one. */
export function Choose<T extends string>(props: {
  name: string;
  label: string;
  value: T;
  among: [T, string][];
  onChoose(value: T): void;
}) {
  return (
    <span class="choose" role="radiogroup" aria-label={props.label}>
      {props.among.map(([value, words]) => (
        <label key={value}>
          <input
            type="radio"
            name={props.name}
            checked={value === props.value}
            onChange={() => props.onChoose(value)}
          />
          <span>{words}</span>
        </label>
      ))}
    </span>
  );
}
