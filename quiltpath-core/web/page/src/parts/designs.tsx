// Part 2 of the worksheet, the designs: for each border a drawing for the corners and one for the
// sides, and within them those of the blocks.

import { useState } from "preact/hooks";
import { useStore } from "../core/store";
import { BlockCards } from "./designs/blocks";
import { CornerCard } from "./designs/corner";
import { FileLink } from "./designs/file";
import { bordersOf, keysAt, type BorderKeys } from "./designs/keys";
import { CentreCard } from "./designs/middle";
import { CORNER_TRIANGLES, SIDE_TRIANGLES, centreOf, isCentre, keyOf, placesOfBlocks, placesOfBorder, type Place } from "./designs/places";
import { PhotoCheck } from "./designs/photo";
import { useShown } from "./designs/shown";
import { SideCard } from "./designs/side";
import { take, type Photo } from "./designs/take";

export function Designs() {
  const { doc } = useStore("doc");
  const borders = bordersOf(doc.plan);
  const ofBorders = borders.map((_, at) => placesOfBorder(doc.plan, at));
  const places = [...ofBorders.flat(), ...placesOfBlocks(doc.plan)];
  const shown = useShown(places);
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
        {places.length === 0 && <p class="help">Add a border or blocks in part 1 first.</p>}
        {borders.map((border, at) => (
          <section key={at} aria-label={named(borders, at) ?? "The border"}>
            {(borders.length > 1 || doc.plan.blocks) && <h3 class="border-name">{named(borders, at) ?? "The border"}</h3>}
            <div class="cards">
              {ofBorders[at]!.map((place) =>
                isCentre(place) ? (
                  <CentreCard key={keyOf(place)} at={at} shown={shown(place)} take={(file) => taken(file, place)} />
                ) : place.role === "corner" ? (
                  <CornerCard
                    key={keyOf(place)}
                    at={at}
                    border={border}
                    shown={shown(place)}
                    take={(file) => taken(file, place)}
                  />
                ) : (
                  <SideCard
                    key={keyOf(place)}
                    at={at}
                    border={border}
                    shown={shown(place)}
                    take={(file) => taken(file, place)}
                    takeCentre={(file) => taken(file, centreOf(at))}
                  />
                ),
              )}
            </div>
          </section>
        ))}
        {doc.plan.blocks && (
          <section aria-label="The blocks">
            <h3 class="border-name">The blocks</h3>
            <BlockCards plan={doc.plan} shown={shown} take={taken} />
          </section>
        )}
        {photo && <PhotoCheck photo={photo} set={setPhoto} />}
        {places.length > 0 && <Drop borders={borders} places={places} take={taken} />}
      </div>
    </section>
  );
}

/** The name of a border where there are several. */
function named(borders: BorderKeys[], at: number): string | null {
  return borders.length > 1 ? borderName(borders[at]!, at) : null;
}

function borderName(border: BorderKeys, at: number): string {
  const name = border.name ?? `border ${at + 1}`;
  return name.charAt(0).toUpperCase() + name.slice(1);
}

interface DropProps {
  borders: BorderKeys[];
  places: Place[];
  take: (file: File, place: Place) => Promise<string | null>;
}

/** One place for any drawing: it goes where one is missing, or she says where. */
function Drop({ borders, places, take }: DropProps) {
  const { doc } = useStore("doc");
  const [said, setSaid] = useState<string | null>(null);
  const [waiting, setWaiting] = useState<File | null>(null);
  const [over, setOver] = useState(false);
  const missing = (name: string | undefined) => !name || !doc.drawings.has(name);
  const wanted = (place: Place) => {
    if (place.border === null) return place !== SIDE_TRIANGLES && place !== CORNER_TRIANGLES;
    const { style } = borders[place.border]!.corner;
    return place.role === "side" || style === "leg" || style === "block";
  };
  const first = () => places.find((place) => wanted(place) && missing(keysAt(doc.plan, place).motif)) ?? null;
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
          {places.map((place) => (
            <button key={keyOf(place)} class="link" onClick={() => void put(waiting, place)}>
              to {place.what}
              {place.border !== null && borders.length > 1 && ` of ${borderName(borders[place.border]!, place.border).toLowerCase()}`}
            </button>
          ))}
        </p>
      )}
      {said && <p role="status">{said}</p>}
    </div>
  );
}
