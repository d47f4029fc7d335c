// The pass as it lies on the cloth: what the readings say, its picture, and its files for the
// machine.

import type { LaidSeen, PassSeen } from "quiltpath";
import { useState } from "preact/hooks";
import { passFiles } from "../../core/frame";
import { saveAll } from "../../core/files";
import { say } from "../../core/store";
import { Set } from "../../set";
import { Markup } from "./markup";

export const FORMATS: [string, string][] = [["svg", "SVG"], ["dxf", "DXF"], ["gcode", "G-code"], ["json", "JSON"]];

/** Which formats are saved. */
export function Formats({ chosen, onChoose }: { chosen: string[]; onChoose(formats: string[]): void }) {
  return (
    <span class="ticks" role="group" aria-label="Formats">
      {FORMATS.map(([format, words]) => (
        <label key={format}>
          <input
            type="checkbox"
            checked={chosen.includes(format)}
            onChange={(event) => {
              const next = event.currentTarget.checked
                ? [...chosen, format]
                : chosen.filter((own) => own !== format);
              onChoose(next.length ? next : chosen);
            }}
          />
          {words}
        </label>
      ))}
    </span>
  );
}

export function Laid({ pass, laid }: { pass: PassSeen; laid: LaidSeen | null }) {
  const [formats, setFormats] = useState(["svg"]);
  const save = () => {
    passFiles(pass.number, formats).then(
      (files) => saveAll(`pass-${String(pass.number).padStart(2, "0")}${laid ? "-laid" : ""}`, files),
      (said: { message?: string }) => say(said.message ?? "The pass can't be saved yet."),
    );
  };
  return (
    <div class="laid-of" aria-live="polite">
      <h3>Laid on the cloth</h3>
      {laid ? (
        <>
          <Markup class="laid-picture" text={laid.picture} />
          <p>{laid.lies[0]?.toUpperCase() + laid.lies.slice(1)}.</p>
          {laid.findings.map((finding) => (
            <p key={finding.says} class={finding.severity === "note" ? "" : "look-here"}>
              <Set text={`${finding.says[0]?.toUpperCase()}${finding.says.slice(1)}.`} />
            </p>
          ))}
          {laid.refitted.map((says) => (
            <p key={says}>{says}</p>
          ))}
          {laid.near.map((near) => (
            <p key={near.border}>
              The line comes within <Set text={near.seam} /> of the seam and <Set text={near.edge} /> of the edge, as
              touched.
            </p>
          ))}
        </>
      ) : (
        <p class="help">Nothing is read yet, so the pass lies as planned.</p>
      )}
      <p class="line">
        <button class="btn" onClick={save}>
          Save pass {pass.number} {laid ? "as laid" : "as planned"}
        </button>{" "}
        <Formats chosen={formats} onChoose={setFormats} />
      </p>
      <p class="help">With it comes its needle-up check. Run that first, with the needle up.</p>
    </div>
  );
}
