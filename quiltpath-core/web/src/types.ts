/** What is thrown: an Error with what went wrong and where. */
export interface Fault extends Error {
  kind: "geometry" | "length" | "drawing" | "data" | "motif" | "leg" | "fit" | "stitch" | "check"
    | "plan" | "paper" | "scan" | "align" | "stitched" | "resume" | "other";
  /** The message without its place. */
  reason: string;
  file: string | null;
  /** The key path of a plan, as "borders[0].width", an id or an index. */
  place: string | null;
  /** Row and column, from 1. */
  position: [number, number] | null;
  /** The key of the plan that helps. */
  hint: string | null;
}

/** What a page shows of a solved plan; lengths in the plan's unit. */
export interface Seen {
  /** The parts of the picture in the order of drawing. */
  keys: string[];
  unit: "in" | "cm" | "mm";
  picture: {
    view: [number, number, number, number];
    quilt: [number, number, number, number];
    step: number;
    letters: number;
    pixel: number;
    /** Those parts that changed. */
    parts: { key: string; markup: string }[];
  };
  [more: string]: unknown;
}

/** The legs of a corner drawing. */
export interface Legs {
  elbow: "top_left" | "top_right" | "bottom_right" | "bottom_left";
  /** The turn that lays the legs along the axes, positive clockwise. */
  turnDegrees: number;
  depthHorizontal: number;
  depthVertical: number;
}

/** A number of repeats and what it does to them. */
export interface Choice {
  repeats: number;
  /** Length along the band divided by the length that keeps the motif's proportions. */
  stretch: number;
}

export interface SpanFit {
  chosen: Choice;
  fewer: Choice | null;
  more: Choice | null;
}
