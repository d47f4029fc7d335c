// Lengths in fields: read for stepping and dragging, written as people write them. Whether a length
// is right is for the core to say.

export type Unit = "in" | "cm" | "mm";

const IN_MM: Record<Unit, number> = { in: 25.4, cm: 10, mm: 1 };

/** A number with or without a fraction, or a fraction alone. */
const NUMBER = /^\s*(?:(\d+)(?:[\s-]+(\d+)\s*\/\s*(\d+))?|(\d+)\s*\/\s*(\d+)|(\d*\.\d+|\d+\.))\s*(in|inch|inches|"|″|cm|mm|m)?\s*$/i;

/** The number in `unit` that a text stands for; null where it is none that can be stepped. */
export function number(text: unknown, unit: Unit): number | null {
  if (typeof text === "number") return text;
  const found = NUMBER.exec(String(text ?? ""));
  if (!found) return null;
  const [, whole, over, under, alone, by, decimal, own] = found;
  const value =
    decimal !== undefined
      ? Number(decimal)
      : Number(whole ?? 0) + Number(over ?? alone ?? 0) / Number(under ?? by ?? 1);
  if (!Number.isFinite(value)) return null;
  if (!own) return value;
  const key = own.toLowerCase();
  const mm = key === "m" ? 1000 : key === "cm" || key === "mm" ? IN_MM[key] : 25.4;
  return (value * mm) / IN_MM[unit];
}

/** The same, with a sign: of a place, which may lie left of the zero or above it. */
export function signed(text: unknown, unit: Unit): number | null {
  const own = String(text ?? "").trim();
  const minus = own.startsWith("-");
  const size = number(minus ? own.slice(1) : own, unit);
  return minus && size !== null ? -size : size;
}

/** How far a field steps: 1/16 in, or 1 mm. */
export function step(unit: Unit): number {
  return unit === "in" ? 1 / 16 : 1 / IN_MM[unit];
}

/** To the nearest step. */
export function snapped(value: number, unit: Unit): number {
  return Math.round(value / step(unit)) * step(unit);
}

/** A number as she would write it: in sixteenths of an inch, or in millimetres. */
export function written(value: number, unit: Unit): string {
  if (unit !== "in") return String(Number(snapped(value, unit).toFixed(unit === "cm" ? 1 : 0)));
  const sixteenths = Math.max(0, Math.round(value * 16));
  const whole = Math.floor(sixteenths / 16);
  let [over, under] = [sixteenths % 16, 16];
  while (over && over % 2 === 0) [over, under] = [over / 2, under / 2];
  if (!over) return String(whole);
  return whole ? `${whole} ${over}/${under}` : `${over}/${under}`;
}

/** The same, with a sign. */
export function signedText(value: number, unit: Unit): string {
  const own = snapped(value, unit);
  return own < 0 ? `-${written(-own, unit)}` : written(own, unit);
}

/** A text in parts: what is a fraction is set with a bar. */
export function pieces(text: string): (string | [string, string])[] {
  const found: (string | [string, string])[] = [];
  let rest = text;
  for (;;) {
    const fraction = /(\d+)\s*\/\s*(\d+)/.exec(rest);
    if (!fraction) break;
    const before = rest.slice(0, fraction.index).replace(/[\s-]+$/, "");
    if (before) found.push(before);
    found.push([fraction[1]!, fraction[2]!]);
    rest = rest.slice(fraction.index + fraction[0].length);
  }
  if (rest) found.push(rest);
  return found;
}
