// The thread broke, or the bobbin ran out: where, and what is left of the run from there.

import type { AtFrame, PassSeen, RestSeen } from "quiltpath";
import { useState } from "preact/hooks";
import { resume } from "../../core/frame";
import { saveAll } from "../../core/files";
import { Choose } from "../../field";
import { Set } from "../../set";
import { Formats } from "./laid";

type How = "at" | "after" | "stitch" | "minutes";

function Word(props: { label: string; value: string; wide: number; blank?: string; onWrite(text: string): void }) {
  return (
    <label class={`field${props.value ? "" : " blank"}`} style={{ "--wide": props.wide }}>
      <span class="unseen">{props.label}</span>
      <input
        value={props.value}
        placeholder={props.blank ?? ""}
        autocomplete="off"
        onInput={(event) => props.onWrite(event.currentTarget.value)}
      />
      <output aria-hidden="true">
        <Set text={props.value} />
      </output>
    </label>
  );
}

export function Broke({ frame, pass }: { frame: AtFrame; pass: PassSeen }) {
  const [run, setRun] = useState(pass.runs.find((own) => !own.stitched)?.number ?? pass.runs[0]?.number ?? 1);
  const [how, setHow] = useState<How>("at");
  const [place, setPlace] = useState<[string, string]>(["", ""]);
  const [after, setAfter] = useState("");
  const [back, setBack] = useState("");
  const [formats, setFormats] = useState(["svg"]);
  const [found, setFound] = useState<RestSeen | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const go = (stop: object) => {
    setWrong(null);
    resume(pass.number, run, { ...stop, ...(back.trim() && { back }) }, formats).then(
      ({ rest, files }) => {
        setFound(rest);
        if (!rest.strands) saveAll(`rest-${pass.number}-run-${run}`, files);
      },
      (said: { message?: string }) => {
        setFound(null);
        setWrong(said.message ?? "Write it as 64 1/4 or 64.25");
      },
    );
  };
  const stop = () => {
    if (how === "at") return { at: place };
    if (how === "after") return { after };
    return { [how]: Number(after) };
  };
  const ready = how === "at" ? place.every((own) => own.trim()) : after.trim() !== "" && (how === "after" || Number(after) >= 0);
  const stopped = frame.stopped?.pass === pass.number ? frame.stopped : null;
  return (
    <details class="broke-of" open={Boolean(stopped)}>
      <summary>Thread broken, or bobbin empty? Go on from there</summary>
      {stopped && (
        <p>
          Run {stopped.run} stopped after <Set text={stopped.after} />.
        </p>
      )}
      <p class="line">
        <span>Which run?</span>{" "}
        <Choose
          name="run"
          label="The run that stopped"
          value={String(run)}
          among={pass.runs.map((own) => [String(own.number), String(own.number)] as [string, string])}
          onChoose={(own) => setRun(Number(own))}
        />
      </p>
      <p class="line">
        <span>How do you know where?</span>{" "}
        <Choose
          name="how"
          label="How you know where it stopped"
          value={how}
          among={[["at", "by its place"], ["after", "by the line"], ["stitch", "by the stitch"], ["minutes", "by the time"]]}
          onChoose={(own) => {
            setHow(own);
            setFound(null);
          }}
        />
      </p>
      {how === "at" ? (
        <p class="line">
          <span>The needle stands at</span>{" "}
          <Word label="across" wide={6} value={place[0]} onWrite={(text) => setPlace([text, place[1]])} /> across,{" "}
          <Word label={frame.up ? "up" : "down"} wide={6} value={place[1]} onWrite={(text) => setPlace([place[0], text])} />{" "}
          {frame.up ? "up" : "down"}
        </p>
      ) : (
        <p class="line">
          <span>{{ after: "After so much line:", stitch: "After so many stitches:", minutes: "After so many minutes:" }[how]}</span>{" "}
          <Word label="how much was stitched" wide={7} value={after} onWrite={setAfter} />
        </p>
      )}
      <p class="line">
        <span>Begin</span> <Word label="how much earlier to begin" wide={4} blank="1/2" value={back} onWrite={setBack} />{" "}
        <span>earlier, on the stitched line.</span>
      </p>
      <p class="line">
        <button class="btn" disabled={!ready} onClick={() => go(stop())}>
          Save the rest of run {run}
        </button>{" "}
        <Formats chosen={formats} onChoose={setFormats} />
      </p>
      {wrong && <p class="look-here" role="status">{wrong}</p>}
      {found?.strands && (
        <div role="status">
          <p>{found.strands.length} lines come by that place. Follow the thread: which one broke?</p>
          <ul class="strands">
            {found.strands.map((strand) => (
              <li key={strand.after}>
                <button class="link" onClick={() => go({ after: strand.after })}>
                  the one after <Set text={strand.says} />
                </button>{" "}
                <small>
                  <Set text={strand.off} /> from the place
                </small>
              </li>
            ))}
          </ul>
        </div>
      )}
      {found?.left && (
        <p role="status">
          <Set
            text={`${found.stitched} of ${found.whole} are stitched. The rest begins ${found.back} before that: ${found.left}, ${found.stitches} stitches, about ${Math.max(1, Math.round(found.minutes ?? 0))} minutes.`}
          />
        </p>
      )}
      <p class="help">Needle up and hands clear before the machine moves. Its manual comes first.</p>
    </details>
  );
}
