// Where a drawing's line starts and ends: dragged on its picture, or written as two lengths.

import type { DrawingSeen, EndsSeen } from "quiltpath";
import { useRef, useState } from "preact/hooks";
import { type Unit, signedText, snapped, step } from "../../core/lengths";
import { now, takeBack } from "../../core/store";
import { handle } from "../../drag";
import { Field } from "../../field";
import { Says } from "../../says";
import { Item } from "./item";
import { edit, type End, type Length } from "./keys";
import type { Place as Drawn } from "./places";

type Which = "start" | "end";
type Place = readonly [number, number];

/** A dragged end stays at the end of a stroke that is so near, in pixels. */
const NEAR = 10;

function capital(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

function unitOf(): Unit {
  return (now().doc.plan.unit ?? "in") as Unit;
}

/** A place as it is written: in steps, but for the end of a stroke, which is met exactly. */
function put(place: Place, tips: readonly Place[], near: number): [Length, Length] {
  const far = (tip: Place) => Math.hypot(tip[0] - place[0], tip[1] - place[1]);
  const tip = tips.reduce<Place | null>((best, next) => (best && far(best) <= far(next) ? best : next), null);
  const unit = unitOf();
  if (!tip || far(tip) > near) return [signedText(place[0], unit), signedText(place[1], unit)];
  const exact = (value: number): Length =>
    Math.abs(value - snapped(value, unit)) < 1e-4 ? signedText(value, unit) : Number(value.toFixed(4));
  return [exact(tip[0]), exact(tip[1])];
}

/** The picture of a drawing, its start and its end to be dragged. */
export function DrawingPicture({ of, seen }: { of: Drawn; seen: DrawingSeen }) {
  const box = useRef<HTMLDivElement>(null);
  const [, , wide, high] = seen.view;
  return (
    <div ref={box} class="picture-of" style={{ "--ratio": wide / high }}>
      <svg
        class={`motif ${seen.role}`}
        viewBox={seen.view.join(" ")}
        style={{ "--px": String(seen.pixel) }}
        role="img"
        aria-label={`${capital(of.called)}${of.role === "side" ? ", one repeat" : ""}, from its start to its end`}
        dangerouslySetInnerHTML={{ __html: seen.markup }}
      />
      {seen.places && (
        <Handles
          of={of}
          seen={seen}
          places={seen.places}
          perPixel={() => wide / (box.current?.getBoundingClientRect().width || 1)}
        />
      )}
    </div>
  );
}

interface HandlesProps {
  of: Drawn;
  seen: DrawingSeen;
  places: EndsSeen;
  /** Steps of the picture in a pixel of the screen. */
  perPixel(): number;
}

function Handles({ of, seen, places, perPixel }: HandlesProps) {
  // Where the one that is held is wanted; the line starts at the place that is nearest.
  const [held, hold] = useState<{ which: Which; place: Place } | null>(null);
  const [x0, y0, wide, high] = seen.view;
  const [a, b, c, d, e, f] = places.to_picture;
  const whole = a * d - b * c;
  const start = useRef<{ place: Place; key: Which }>({ place: places.start.at, key: "start" });
  const own = (which: Which) => {
    const to = (place: Place, near: number, merge: boolean) => {
      const { key } = start.current;
      const written = put(place, places.tips, near);
      edit(of, { [key]: written }, `${which} of ${of.called}, to ${written.join(", ")}`, merge);
    };
    const from = (merge: boolean) => {
      if (!merge) start.current = { place: places[which].at, key: places[which].key };
      return start.current.place;
    };
    return handle({
      label: `${which === "start" ? "Start" : "End"} of ${of.called}, drag or use the arrow keys`,
      onMove: (right, down, merge) => {
        const [x, y] = from(merge);
        const scale = perPixel() / whole;
        const place: Place = [x + (d * right - c * down) * scale, y + (a * down - b * right) * scale];
        hold({ which, place });
        to(place, (NEAR * perPixel()) / Math.sqrt(Math.abs(whole)), merge);
      },
      onStep: (right, down, large) => {
        const [x, y] = from(false);
        const unit = unitOf();
        const by = large ? (unit === "mm" ? 10 : 1) : step(unit);
        to([x + right * by, y + down * by], step(unit) / 2, false);
      },
      onDrop: takeBack,
      onEnd: () => hold(null),
    });
  };
  return (
    <>
      {(["start", "end"] as const).map((which) => {
        const [x, y] = held?.which === which ? held.place : places[which].at;
        const left = (100 * (a * x + c * y + e - x0)) / wide;
        const top = (100 * (b * x + d * y + f - y0)) / high;
        return (
          <i
            key={which}
            class={`handle end-of ${which}`}
            style={{ left: `${left}%`, top: `${top}%` }}
            {...own(which)}
          />
        );
      })}
    </>
  );
}

/** A ring for a start, a square for an end. */
function EndSign({ end }: { end: Which }) {
  return (
    <svg class="ic" viewBox="0 0 16 16" role="img" aria-label={end}>
      {end === "start" ? (
        <circle class="first" cx="8" cy="8" r="5" />
      ) : (
        <path class="last" d="M4 4h8v8H4z" />
      )}
    </svg>
  );
}

interface EndsProps {
  of: Drawn;
  seen: DrawingSeen;
  /** What the plan says. */
  own: { start?: End; end?: End };
  /** Whether the line may go either way. */
  swaps?: boolean;
}

/** Where it starts and where it ends, in words with their signs, and as places that can be written. */
export function Ends({ of, seen, own, swaps = false }: EndsProps) {
  const { places } = seen;
  const words = (which: Which, found: string) => {
    const said = places && own[places[which].key];
    return typeof said === "string" ? said : found;
  };
  const [first, last] = [words("start", seen.ends[0]), words("end", seen.ends[1])];
  const apart = places && (["start", "end"] as const).some((which) => places[which].given);
  const swap = ({ start, end }: EndsSeen) => {
    const keys = {
      start: own.end ?? put(end.at, [end.at], 1),
      end: own.start ?? put(start.at, [start.at], 1),
    };
    edit(of, keys, `ends of ${of.called} swapped`);
  };
  return (
    <Item name="Ends">
      {first === last && !apart ? (
        <>
          <EndSign end="start" /> and <EndSign end="end" /> {first}.{" "}
        </>
      ) : (
        <>
          <EndSign end="start" /> {first}, <EndSign end="end" /> {last}.{" "}
        </>
      )}
      {seen.backwards && !apart && "Stitched against the way it was drawn. "}
      {seen.meets && <Says text={seen.meets} />}
      {places && (["start", "end"] as const).map((which) => <Written key={which} of={of} places={places} which={which} own={own} />)}
      {places && swaps && (
        <button class="link" onClick={() => swap(places)}>
          Swap ends
        </button>
      )}
    </Item>
  );
}

/** An end as two lengths; blank where it is found by itself. */
function Written(props: { of: Drawn; places: EndsSeen; which: Which; own: EndsProps["own"] }) {
  const { of, places, which, own } = props;
  const { key, given, at: found } = places[which];
  const name = `${which} of ${of.called}`;
  const unit = unitOf();
  const said = own[key];
  const now = found.map((value) => signedText(value, unit)) as [Length, Length];
  // What stood in both as one of them was begun to be written on.
  const begun = useRef<[Length, Length]>(now);
  const write = (axis: number, text: string, merge: boolean) => {
    if (!merge) begun.current = Array.isArray(said) ? said : now;
    const place: [Length, Length] = [...begun.current];
    place[axis] = text;
    const next = text === "" ? undefined : place;
    edit(of, { [key]: next }, `${name}, ${next ? `to ${place.join(", ")}` : "as found"}`, merge);
  };
  return (
    <p class="place-of">
      <EndSign end={which} />{" "}
      {(["across", "down"] as const).map((way, axis) => (
        <span key={way} class="whole">
          <Field
            label={`${capital(name)}, ${way}`}
            value={Array.isArray(said) ? said[axis] : undefined}
            place={[...of.path, key, axis]}
            blank={String(now[axis])}
            wide={5}
            sign
            onWrite={(text, merge) => write(axis, text, merge)}
          />{" "}
          {way}{" "}
        </span>
      ))}
      {given && (
        <button
          class="link"
          aria-label={`${capital(name)} as found`}
          onClick={() => edit(of, { [key]: undefined }, `${name}, as found`)}
        >
          As found
        </button>
      )}
    </p>
  );
}
