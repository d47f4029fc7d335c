
/** A run of a pass. */
export interface RunSeen {
  number: number;
  length: LengthSaid;
  stitches: number;
  /** Where it starts and ends on the machine. */
  ends: [[LengthSaid, LengthSaid], [LengthSaid, LengthSaid]];
  closed: boolean;
  stitched: boolean;
  bobbins: { after: LengthSaid; empty: number | null; why: string }[];
}

/** A mark of a pass: where the plan expects it on the machine. */
export interface MarkSeen {
  letter: string;
  name: string;
  expected: [LengthSaid, LengthSaid];
  met: boolean;
}

export interface PassSeen {
  number: number;
  loading: "upright" | "turned";
  minutes: number;
  small: string;
  figure: string;
  steps: string[];
  runs: RunSeen[];
  marks: MarkSeen[];
  stops: string[][];
}

/** What a page shows at the frame. */
export interface AtFrame {
  /** The unit of places on the machine. */
  unit: string;
  /** Whether its y points up. */
  up: boolean;
  passes: PassSeen[];
  kept: { pass: number; readings: { letter: string; name: string; x: number; y: number }[] }[];
  stopped: { pass: number; run: number; after: string } | null;
}

/** A pass as laid. */
export interface LaidSeen {
  pass: number;
  lies: string;
  readings: {
    letter: string;
    name: string;
    off: { mm: number; says: string } | null;
    met: boolean;
    doubted: boolean;
  }[];
  findings: { severity: "note" | "warning" | "error"; code: string; says: string }[];
  near: { border: string; seam: string; edge: string }[];
  refitted: string[];
  picture: string;
}

/** What is left of a run, or the strands to choose from. */
export interface RestSeen {
  strands?: { after: string; says: string; off: string }[];
  stitched?: string;
  whole?: string;
  back?: string;
  left?: string;
  stitches?: number;
  minutes?: number;
}
