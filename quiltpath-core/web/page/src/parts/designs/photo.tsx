// A photo that was read: the lines on it to check, its size where that isn't known, and then take it.

import { useEffect, useRef, useState } from "preact/hooks";
import { number, type Unit } from "../../core/lengths";
import type { Said } from "../../core/protocol";
import { useStore } from "../../core/store";
import { Says } from "../../says";
import { scan, takePhoto, type Photo } from "./take";

/** Millimetres in the units of plans. */
const MM = { in: 25.4, cm: 10, mm: 1 };

interface Props {
  photo: Photo;
  set: (photo: Photo | null) => void;
}

export function PhotoCheck({ photo, set }: Props) {
  const { doc } = useStore("doc");
  const { scanned, name } = photo;
  const [typed, setTyped] = useState("");
  const [said, setSaid] = useState<string | null>(null);
  const [picture, setPicture] = useState("");
  const section = useRef<HTMLElement>(null);
  useEffect(() => section.current?.scrollIntoView({ block: "start" }), [name]);
  useEffect(() => {
    const url = URL.createObjectURL(new Blob([scanned.overlay], { type: "image/svg+xml" }));
    setPicture(url);
    return () => URL.revokeObjectURL(url);
  }, [scanned.overlay]);
  const size = async () => {
    const unit = (doc.plan["unit"] ?? "in") as Unit;
    const width = number(typed, unit);
    if (width === null || width <= 0) return setSaid("Write it as 13 1/2 or 13.5.");
    setSaid("Reading it again …");
    try {
      set(await scan(name, photo.bytes, photo.place, width * MM[unit]));
      setSaid(null);
    } catch (error) {
      setSaid((error as Said).message);
    }
  };
  return (
    <section class="photo" ref={section} aria-label={`The lines read from ${name}`}>
      <h3>Is this your line?</h3>
      {picture && <img src={picture} alt={`${name} with the lines that were read on it`} />}
      <ul>
        {scanned.notes.map((note) => (
          <li key={note.says} class={note.look ? "look" : undefined}>
            <Says text={`${note.says.charAt(0).toUpperCase()}${note.says.slice(1)}.`} />
          </li>
        ))}
      </ul>
      {!scanned.sized && (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void size();
          }}
        >
          <label>
            How wide is the drawing?{" "}
            <span class="field" style={{ "--wide": 6 }}>
              <input
                autocomplete="off"
                value={typed}
                onInput={(event) => setTyped(event.currentTarget.value)}
              />
            </span>{" "}
            {String(doc.plan["unit"])}
          </label>{" "}
          <button class="link">Read it at this size</button>
        </form>
      )}
      {said && <p role="status">{said}</p>}
      <p class="opts">
        <button
          class="btn"
          onClick={() => {
            takePhoto(photo);
            set(null);
          }}
        >
          Take it
        </button>
        <button class="link" onClick={() => set(null)}>
          Leave it
        </button>
      </p>
    </section>
  );
}
