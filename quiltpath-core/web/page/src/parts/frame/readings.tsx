// Where the cloth lies: what the machine shows over each mark, by keyboard or by a pad of numbers
// that knows fractions.

import type { AtFrame, LaidSeen, PassSeen } from "quiltpath";
import { useEffect, useRef, useState } from "preact/hooks";
import { type Unit, written } from "../../core/lengths";
import { type Written, forget, lay } from "../../core/frame";
import { Set } from "../../set";

type Cells = Record<string, [string, string]>;

/** The readings that are kept of a pass, as she would write them. */
function keptOf(frame: AtFrame, pass: number): Cells {
  const kept = frame.kept.find((own) => own.pass === pass);
  const text = (value: number) => String(Number(value.toFixed(4)));
  return Object.fromEntries((kept?.readings ?? []).map((one) => [one.letter, [text(one.x), text(one.y)]]));
}

const KEYS = ["7", "8", "9", "1/2", "1/4", "4", "5", "6", "3/4", "1/8", "1", "2", "3", "3/8", "5/8", "0", ".", "-", "7/8", "⌫"];

export function Readings(props: {
  frame: AtFrame;
  pass: PassSeen;
  laid: LaidSeen | null;
  onLaid(laid: LaidSeen | null): void;
}) {
  const { frame, pass, laid, onLaid } = props;
  const [cells, setCells] = useState<Cells>(() => keptOf(frame, pass.number));
  const [wrong, setWrong] = useState<string | null>(null);
  const [at, setAt] = useState<{ letter: string; axis: 0 | 1 } | null>(null);
  const table = useRef<HTMLTableElement>(null);
  /** What is to be laid next, the newest alone, and whether something is being laid. */
  const wanted = useRef<Cells | null>(null);
  const laying = useRef(false);
  const full = (own: Cells): Written[] =>
    pass.marks.flatMap(({ letter }) => {
      const cell = own[letter];
      return cell && cell[0].trim() && cell[1].trim() ? [{ mark: letter, x: cell[0], y: cell[1] }] : [];
    });
  const work = async (own: Cells) => {
    wanted.current = own;
    if (laying.current) return;
    laying.current = true;
    while (wanted.current) {
      const readings = full(wanted.current);
      wanted.current = null;
      const done = (next: LaidSeen | null, wrong: string | null) => {
        if (wanted.current) return;
        onLaid(next);
        setWrong(wrong);
      };
      try {
        done(readings.length ? await lay(pass.number, readings) : (await forget(pass.number), null), null);
      } catch (said) {
        done(null, (said as { message?: string }).message ?? "Write each as 64 1/4 or 64.25");
      }
    }
    laying.current = false;
  };
  // What was read before a reload is laid again.
  useEffect(() => {
    if (full(cells).length && !laid) void work(cells);
  }, []);
  const write = (letter: string, axis: 0 | 1, text: string) => {
    const cell: [string, string] = [...(cells[letter] ?? (["", ""] as [string, string]))];
    cell[axis] = text;
    const next = { ...cells, [letter]: cell };
    setCells(next);
    const before = JSON.stringify(full(cells));
    if (JSON.stringify(full(next)) !== before) void work(next);
  };
  /** Goes to a field, the page staying where it is: the pad is under her finger. */
  const focus = (letter: string, axis: 0 | 1) => {
    const cell = table.current?.querySelector<HTMLInputElement>(`[data-cell="${letter}${axis}"]`);
    cell?.focus({ preventScroll: true });
    return cell;
  };
  const press = (key: string) => {
    const own = at ?? { letter: pass.marks[0]?.letter ?? "A", axis: 0 as const };
    const text = cells[own.letter]?.[own.axis] ?? "";
    if (key === "⌫") write(own.letter, own.axis, text.slice(0, -1));
    else write(own.letter, own.axis, key.includes("/") && text ? `${text} ${key}` : text + key);
    focus(own.letter, own.axis);
  };
  const next = () => {
    const own = at ?? { letter: pass.marks[0]?.letter ?? "A", axis: 0 as const };
    const index = pass.marks.findIndex((mark) => mark.letter === own.letter);
    const after = own.axis === 0 ? own : pass.marks[(index + 1) % pass.marks.length];
    // A field that can't be seen is brought in by no more than that takes.
    if (after) focus(after.letter, own.axis === 0 ? 1 : 0)?.scrollIntoView({ block: "nearest" });
  };
  const worst = Math.max(1e-9, ...(laid?.readings.map((one) => one.off?.mm ?? 0) ?? []));
  return (
    <div class="readings-of">
      <h3>Where the cloth lies</h3>
      <table ref={table}>
        <thead>
          <tr>
            <th scope="col">Mark</th>
            <th scope="col">across</th>
            <th scope="col">{frame.up ? "up" : "down"}</th>
            <th scope="col" class="off">off by</th>
          </tr>
        </thead>
        <tbody>
          {pass.marks.map((mark) => {
            const found = laid?.readings.find((one) => one.letter === mark.letter);
            return (
              <tr key={mark.letter} class={found?.doubted ? "doubted" : ""}>
                <th scope="row">
                  <span class="mark-of">{mark.letter}</span> <small>{mark.name}</small>
                </th>
                {([0, 1] as const).map((axis) => (
                  <td key={axis}>
                    <label class="field" style={{ "--wide": 5 }}>
                      <span class="unseen">
                        {mark.letter}, {axis ? (frame.up ? "up" : "down") : "across"}
                      </span>
                      <input
                        data-cell={`${mark.letter}${axis}`}
                        value={cells[mark.letter]?.[axis] ?? ""}
                        placeholder={written(mark.expected[axis].value, frame.unit as Unit)}
                        inputMode="none"
                        autocomplete="off"
                        onFocus={() => setAt({ letter: mark.letter, axis })}
                        onPointerDown={(event) => {
                          // A mouse comes with a keyboard; a finger has the pad below.
                          event.currentTarget.inputMode = event.pointerType === "mouse" ? "text" : "none";
                        }}
                        onKeyDown={(event) => {
                          if (event.key !== "Enter") return;
                          event.preventDefault();
                          next();
                        }}
                        onInput={(event) => write(mark.letter, axis, event.currentTarget.value)}
                      />
                      <output aria-hidden="true">
                        <Set text={cells[mark.letter]?.[axis] ?? ""} />
                      </output>
                    </label>
                  </td>
                ))}
                <td class="off">
                  {found && (
                    <>
                      <span class="bar" style={{ "--of": (found.off?.mm ?? 0) / worst }} aria-hidden="true" />
                      {found.met ? "met" : found.off ? <Set text={found.off.says} /> : "–"}
                    </>
                  )}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <div class="pad" role="group" aria-label="Numbers">
        {KEYS.map((key) => (
          <button
            key={key}
            type="button"
            onPointerDown={(event) => event.preventDefault()}
            onClick={() => press(key)}
          >
            {key === "⌫" ? (
              <>
                <span class="unseen">rub out</span>
                <span aria-hidden="true">⌫</span>
              </>
            ) : (
              <Set text={key} />
            )}
          </button>
        ))}
        <button type="button" class="next" onPointerDown={(event) => event.preventDefault()} onClick={next}>
          next
        </button>
      </div>
      {wrong && <p class="look-here" role="status">{wrong}</p>}
      <p class="help">
        {full(cells).length
          ? "Two marks will do, six are better. Off by is how far a mark lies from where the others have it."
          : "Write one mark to begin: put the needle over it, and write what the machine shows, wherever its zero is."}
      </p>
    </div>
  );
}
