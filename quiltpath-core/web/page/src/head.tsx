// The head of the sheet: its name, its unit, the last change, and where it is kept.

import { useEffect, useRef, useState } from "preact/hooks";
import { EMPTY, put } from "./core/document";
import { linkTo, saveEverything, saveSheet } from "./core/files";
import { example, openFile } from "./core/start";
import { change, now, open, putBack, say, takeBack, useStore } from "./core/store";
import { Choose, Field } from "./field";
import { Set } from "./set";

const FORMATS: [string, string][] = [["dxf", "DXF"], ["gcode", "G-code"], ["jsonl", "JSON Lines"]];

const KEPT = {
  kept: "Kept in this browser",
  soon: "Being kept in this browser",
  not: "Not kept in this browser",
};

/** What a keyboard does everywhere but in a field that has its own. */
function useKeys() {
  useEffect(() => {
    const keys = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
      event.preventDefault();
      (document.activeElement as HTMLElement | null)?.blur?.();
      if (event.shiftKey) putBack();
      else takeBack();
    };
    window.addEventListener("keydown", keys);
    return () => window.removeEventListener("keydown", keys);
  }, []);
}

function LastChange() {
  const { past, future } = useStore("past", "future");
  const last = past.at(-1);
  return (
    <p>
      <small>Last change</small>
      <span aria-live="polite">
        {last ? <Set text={last.name} /> : <i>none yet</i>}{" "}
        {last && <button class="link" onClick={takeBack}>Take back</button>}{" "}
        {future.length > 0 && <button class="link" onClick={putBack}>Put back</button>}
      </span>
    </p>
  );
}

function Kept() {
  const { kept, seen, said } = useStore("kept", "seen", "said");
  const [more, setMore] = useState(false);
  const [formats, setFormats] = useState<string[]>([]);
  const [link, setLink] = useState<string | null>(null);
  const file = useRef<HTMLInputElement>(null);
  const everything = () => {
    void saveEverything(formats).catch((error: { message?: string }) => say(error.message ?? "That can't be saved yet."));
  };
  const share = () => {
    const address = linkTo(now().doc);
    if (!address) say("This sheet is too large for a link. Save it as a file.");
    setLink(address);
  };
  return (
    <p>
      <small>{KEPT[kept]}</small>
      <span>
        <button class="link" onClick={() => void saveSheet()}>Save</button>{" "}
        <button class="link" onClick={() => file.current?.click()}>Open</button>{" "}
        <button class="link" onClick={() => window.print()}>Print</button>{" "}
        <button class="link" aria-expanded={more} onClick={() => setMore(!more)}>More</button>
      </span>
      <input
        ref={file}
        class="unseen"
        type="file"
        tabIndex={-1}
        aria-label="A sheet to open"
        accept=".json,application/json"
        onChange={(event) => {
          const chosen = event.currentTarget.files?.[0];
          if (chosen) void openFile(chosen);
          event.currentTarget.value = "";
        }}
      />
      {more && (
        <span class="more">
          <button class="link" disabled={!seen || Boolean(said)} onClick={everything}>
            Save all files for the machine
          </button>
          <span class="ticks">
            {FORMATS.map(([format, words]) => (
              <label key={format}>
                <input
                  type="checkbox"
                  checked={formats.includes(format)}
                  onChange={(event) =>
                    setFormats(
                      event.currentTarget.checked ? [...formats, format] : formats.filter((own) => own !== format),
                    )
                  }
                />
                {words}, too
              </label>
            ))}
          </span>
          <button class="link" onClick={share}>Make a link</button>
          {link && (
            <input
              class="address"
              readOnly
              aria-label="A link that brings this sheet along"
              value={link}
              onFocus={(event) => event.currentTarget.select()}
            />
          )}
          <span>
            Start with{" "}
            <button class="link" onClick={() => open(example(), "started with the example")}>the example</button>{" "}
            <button class="link" onClick={() => open(EMPTY, "started empty")}>an empty sheet</button>
          </span>
        </span>
      )}
    </p>
  );
}

export function Head() {
  useKeys();
  const { doc, word, way, said, seen, timed } = useStore("doc", "word", "way", "said", "seen", "timed");
  const unit = doc.plan.unit ?? "in";
  const look = seen?.look.reduce((sum, kind) => sum + kind.count, 0) ?? 0;
  const passes = timed?.totals.passes;
  return (
    <header class="head">
      <p class="kind">Worksheet</p>
      <h1>
        <Field
          label="Name of the quilt"
          value={doc.plan.title ?? ""}
          blank="Name of the quilt"
          wide={18}
          length={false}
          onWrite={(text, merge) => change(put(now().doc, ["title"], text || undefined), "the name", merge)}
        />
      </h1>
      <p class="whom">
        <span>For</span>
        <Field
          label="Customer"
          value={doc.plan.customer}
          place={["customer"]}
          blank="the customer"
          wide={60}
          length={false}
          onWrite={(text, merge) => change(put(now().doc, ["customer"], text || undefined), "the customer", merge)}
        />
        <span>Notes</span>
        <Field
          label="Notes"
          value={doc.plan.notes}
          place={["notes"]}
          blank="what to keep in mind"
          wide={60}
          length={false}
          lines
          onWrite={(text, merge) => change(put(now().doc, ["notes"], text || undefined), "the notes", merge)}
        />
      </p>
      <p class="lead">
        Write your measures on the drawing. Choose a design for the corners and one for the sides. Take the sheet to
        the frame.
      </p>
      <p class="lead soft">
        <b class="hers">Blue is yours</b>: type it, or drag it on the drawing. The rest is worked out for you.
      </p>
      {word && (
        <p class="word" role="alert">
          {word} {way && <button class="link" onClick={way.go}>{way.says}</button>}{" "}
          <button class="link" onClick={() => say(null)}>Good</button>
        </p>
      )}
      <div class="row-of">
        <p>
          <small>Lengths in</small>
          <Choose
            name="unit"
            label="The unit of lengths without one"
            value={unit as "in" | "cm" | "mm"}
            among={[["in", "inches"], ["cm", "cm"], ["mm", "mm"]]}
            onChoose={(next) => change(put(doc, ["unit"], next), `lengths in ${next}; numbers stay as they are written`)}
          />
        </p>
        <LastChange />
        <Kept />
      </div>
      <nav aria-label="Parts of the sheet">
        <a href="#quilt"><b>1</b> The quilt <small>{said?.place?.startsWith("quilt") ? "look here" : "measured"}</small></a>
        <a href="#designs"><b>2</b> The designs <small>{said?.place?.includes("motif") ? "look here" : "chosen"}</small></a>
        <a href="#result">
          <b>3</b> The result <small>{said ? "not yet" : look ? `${look} to look at` : "nothing to look at"}</small>
        </a>
        <a href="#frame">
          <b>4</b> At the frame{" "}
          <small>{passes ? `${passes} ${passes === 1 ? "pass" : "passes"}` : "not yet"}</small>
        </a>
      </nav>
    </header>
  );
}
