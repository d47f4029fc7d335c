// One card of the designs: a drawing's picture on its place, where another can be dropped.

import type { DrawingSeen } from "quiltpath";
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { useStore } from "../../core/store";
import { Says } from "../../says";
import { Item } from "./item";
import { DrawingPicture } from "./ends";
import { FileLink } from "./file";
import type { Shown } from "./keys";
import type { Place } from "./places";

interface Props {
  place: Place;
  /** Whether the style takes a drawing. */
  draws: boolean;
  /** The name of the drawing in the plan. */
  name: string | undefined;
  shown: Shown;
  take: (file: File) => Promise<string | null>;
  /** What may be done about a drawing that is refused. */
  help?: ComponentChildren;
  /** Takes the drawing out, where the place may do without. */
  out?: () => void;
  children: ComponentChildren;
}

export function Card({ place, draws, name, shown, take, help, out, children }: Props) {
  const { notes } = useStore("notes");
  const [said, setSaid] = useState<string | null>(null);
  const [over, setOver] = useState(false);
  const put = async (file: File | undefined) => {
    if (!file) return;
    setSaid(`Reading ${file.name} …`);
    setSaid(await take(file));
  };
  const seen = shown && "seen" in shown ? shown.seen : null;
  const refused = shown && "refused" in shown ? shown.refused : null;
  return (
    <article
      class={over ? "dragged" : undefined}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        event.stopPropagation();
        setOver(false);
        void put(event.dataTransfer?.files[0]);
      }}
    >
      <h3>For {place.what}</h3>
      {seen && <DrawingPicture of={place} seen={seen} />}
      {draws && !seen && (
        <div class="empty">
          <p>
            <FileLink take={put}>Choose a drawing</FileLink>, or drop it here.
          </p>
        </div>
      )}
      {refused && (
        <p class="look" role="alert">
          <Says text={sentence(refused.reason)} /> {help}
        </p>
      )}
      {said && <p role="status">{said}</p>}
      <dl>
        {name && (
          <Item name="Drawing">
            {name}
            {seen && (
              <>
                , <Says text={`${short(seen)}.`} />
              </>
            )}{" "}
            <FileLink take={put}>Another</FileLink>{" "}
            {out && <button class="link" onClick={out}>Take it out</button>}
            {notes.map(([of, note]) => (
              <p key={note} class="help" hidden={of !== name}>
                <Says text={sentence(note)} />
              </p>
            ))}
          </Item>
        )}
        {children}
      </dl>
    </article>
  );
}

/** Words of the core with a capital and a full stop. */
function sentence(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}.`;
}

/** Width by height, the unit said once. */
function short({ width, height }: DrawingSeen): string {
  const unit = / [a-z]+$/.exec(height.says)?.[0] ?? "";
  const bare = width.says.endsWith(unit) ? width.says.slice(0, width.says.length - unit.length) : width.says;
  return `${bare} by ${height.says}`;
}
