// Part 2 of the worksheet, the designs: for each border a drawing for the corners and one for the
// sides.

import { useState } from "preact/hooks";
import { useStore } from "../core/store";
import { CornerCard } from "./designs/corner";
import { FileLink } from "./designs/file";
import { bordersOf, type BorderKeys, type Role } from "./designs/keys";
import { PhotoCheck } from "./designs/photo";
import { useShown } from "./designs/shown";
import { SideCard } from "./designs/side";
import { take, type Photo, type Place } from "./designs/take";

export function Designs() {
  const { doc, seen } = useStore();
  const borders = bordersOf(doc.plan);
  const shown = useShown(borders);
  const [photo, setPhoto] = useState<Photo | null>(null);
  const taken = async (file: File, place: Place) => {
    const taken = await take(file, place);
    if ("said" in taken) return taken.said;
    setPhoto(taken.photo);
    return null;
  };
  return (
    <section class="part" id="designs" aria-labelledby="designs-name">
      <header>
        <b>2</b>
        <h2 id="designs-name">The designs</h2>
        <p class="help">A drawing file, or a photo of your drawing. Drop it on its place, or choose it.</p>
      </header>
      <div class="designs">
        {borders.length === 0 && <p class="help">Add a border in part 1 first.</p>}
        {borders.map((border, at) => (
          <section key={at} aria-label={borders.length > 1 ? borderName(border, at) : "The border"}>
            {borders.length > 1 && <h3 class="border-name">{borderName(border, at)}</h3>}
            <div class="cards">
              <CornerCard
                at={at}
                border={border}
                shown={shown(at, "corner")}
                take={(file) => taken(file, { border: at, role: "corner" })}
              />
              <SideCard
                at={at}
                border={border}
                meets={seen?.borders[at]?.meets ?? null}
                shown={shown(at, "side")}
                take={(file) => taken(file, { border: at, role: "side" })}
              />
            </div>
          </section>
        ))}
        {photo && <PhotoCheck photo={photo} set={setPhoto} />}
        {borders.length > 0 && <Drop borders={borders} take={taken} />}
      </div>
    </section>
  );
}

function borderName(border: BorderKeys, at: number): string {
  const name = border.name ?? `border ${at + 1}`;
  return name.charAt(0).toUpperCase() + name.slice(1);
}

interface DropProps {
  borders: BorderKeys[];
  take: (file: File, place: Place) => Promise<string | null>;
}

/** One place for any drawing: it goes where one is missing, or she says where. */
function Drop({ borders, take }: DropProps) {
  const { doc } = useStore();
  const [said, setSaid] = useState<string | null>(null);
  const [waiting, setWaiting] = useState<File | null>(null);
  const [over, setOver] = useState(false);
  const missing = (name: string | undefined) => !name || !doc.drawings.has(name);
  const first = (): Place | null => {
    for (const [at, border] of borders.entries()) {
      const draws = border.corner.style === "leg" || border.corner.style === "block";
      if (draws && missing(border.corner.motif)) return { border: at, role: "corner" };
      if (missing(border.side.motif)) return { border: at, role: "side" };
    }
    return null;
  };
  const put = async (file: File, place: Place) => {
    setWaiting(null);
    setSaid(`Reading ${file.name} …`);
    setSaid(await take(file, place));
  };
  const got = (file: File | undefined) => {
    if (!file) return;
    const place = first();
    if (place) void put(file, place);
    else setWaiting(file);
  };
  return (
    <div
      class={over ? "drop dragged" : "drop"}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        got(event.dataTransfer?.files[0]);
      }}
    >
      <p>
        <FileLink take={got}>Choose a drawing</FileLink> or drop one here: SVG, DXF, JSON, or a photo
        of a drawing on paper.
      </p>
      {waiting && (
        <p class="opts" role="group" aria-label={`Where ${waiting.name} goes`}>
          <span>{waiting.name} goes</span>
          {borders.flatMap((border, at) =>
            (["corner", "side"] as const).map((role: Role) => (
              <button
                key={`${at} ${role}`}
                class="link"
                onClick={() => void put(waiting, { border: at, role })}
              >
                to the {role}s{borders.length > 1 && ` of ${borderName(border, at).toLowerCase()}`}
              </button>
            )),
          )}
        </p>
      )}
      {said && <p role="status">{said}</p>}
    </div>
  );
}
