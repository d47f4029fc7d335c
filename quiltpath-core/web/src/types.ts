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

/** A length in the plan's unit, and as people read it. */
export interface LengthSaid {
  value: number;
  says: string;
}

/** A part of the picture. */
export interface PicturePart {
  key: string;
  markup: string;
}

/** The picture of a plan. Boxes are x, y, width and height in steps of its grid. */
export interface Picture {
  view: Box;
  quilt: Box;
  step: number;
  letters: number;
  pixel: number;
  /** Those parts that changed. */
  parts: PicturePart[];
}

export type Box = [number, number, number, number];

/** A change of the plan, as the core knows it; lengths in millimetres. */
export type Change =
  | { change: "repeats"; border: number; sides: number[]; repeats: number | null }
  | { change: "numbers"; border: number; repeats: number[] }
  | { change: "alike"; border: number; alike: boolean }
  | { change: "depth"; border: number; depth: number }
  | { change: "slack"; border: number; slack: number }
  | { change: "ease"; border: number; ease: boolean }
  | { change: "alternate"; border: number; alternate: string }
  | { change: "arrange"; border: number; arrangement: string }
  | { change: "style"; border: number; style: string }
  | { change: "more_passes"; more: number };

/** A change that helps with a finding. */
export interface WayOut {
  says: string;
  change: Change;
}

/** Findings that say the same. */
export interface FoundLine {
  says: string;
  about: string[];
  border: number | null;
  pieces: string[];
  places: [number, number][];
  ways: WayOut[];
}

/** Findings of one kind. */
export interface FoundKind {
  number: number;
  code: string;
  severity: "note" | "warning" | "error";
  title: string;
  count: number;
  lines: FoundLine[];
}

/** A number of repeats with one repeat drawn at its stretch, in a band 100 deep. */
export interface NumberChoice {
  repeats: number;
  stretch: number;
  within: boolean;
  width: number;
  path: string;
}

/** A side with the numbers of repeats that it may have. */
export interface SideSeen {
  border: number;
  side: number;
  name: string;
  piece: string;
  span: LengthSaid;
  limit: number;
  chosen: number;
  best: number;
  given: boolean;
  begun: boolean;
  choices: NumberChoice[];
}

/** Sides that are shown as one, by their places among all. */
export interface SideGroup {
  border: number;
  sides: number[];
  title: string;
}

/** A border with the room for its band. */
export interface BorderSeen {
  name: string;
  width: LengthSaid;
  seam_gap: LengthSaid;
  edge_gap: LengthSaid;
  depth: LengthSaid;
  full: LengthSaid;
  least: LengthSaid;
  most: LengthSaid;
  slack: LengthSaid;
  most_slack: LengthSaid;
  begun: boolean;
  meets: string | null;
  met: boolean;
}

/** Lengths and counts of the whole; those of stitching once they are known. */
export interface Totals {
  length: number;
  pieces: number;
  thread_cuts: number;
  least_thread_cuts?: number;
  passes?: number;
  stitches?: number;
  minutes?: number;
  spools?: number | null;
  bobbins?: number | null;
}

/** What a page shows of a solved plan; lengths in the plan's unit. */
export interface Seen {
  /** The keys of the parts of the picture, in the order of drawing. */
  keys: string[];
  unit: "in" | "cm" | "mm";
  picture: Picture;
  look: FoundKind[];
  know: FoundKind[];
  sides: SideSeen[];
  groups: SideGroup[];
  borders: BorderSeen[];
  totals: Totals;
  /** Needle thread and bobbin thread, where the stitching is known. */
  thread: [string, string] | null;
}

/** A drawing as a border of the plan takes it. */
export interface DrawingSeen {
  role: "corner" | "side";
  border: number;
  width: LengthSaid;
  height: LengthSaid;
  length: LengthSaid;
  factor: number;
  backwards: boolean;
  ends: [string, string];
  /** Where both are, where the plan may say so. */
  places: EndsSeen | null;
  meets: string | null;
  level: boolean;
  legs: string | null;
  doubtful: boolean;
  one_line: string;
  lines: number;
  view: Box;
  pixel: number;
  markup: string;
  little: LittleDrawing;
}

/** Where the line of a drawing starts and ends: in the plan's unit, in the drawing's own coordinates. */
export interface EndsSeen {
  start: EndSeen;
  end: EndSeen;
  /** Takes a place to the picture: a, b, c, d, e and f of SVG's `matrix`. */
  to_picture: [number, number, number, number, number, number];
  /** Where strokes end. */
  tips: [number, number][];
}

export interface EndSeen {
  at: [number, number];
  /** The key of the plan that says so, or would. */
  key: "start" | "end";
  /** Whether it does. */
  given: boolean;
}

/** A drawing in little, its longer side 100; an L has its elbow at the origin. */
export interface LittleDrawing {
  width: number;
  height: number;
  path: string;
}

/** A picture of a drawing, read to lines. */
export interface Scanned {
  /** The drawing: an SVG of its strokes at true size. */
  drawing: string;
  /** The lines on the picture: an SVG. */
  overlay: string;
  notes: { says: string; look: boolean }[];
  /** Whether its size is known, by marks or by the width that was given. */
  sized: boolean;
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
