// Written by frontend/generate.py from pattern.py, follow/strand.py, shape/measures.py, finish/item.py,
// gather/listing.py, habits/allowed.py.
// Change those and run it again.

export type Severity = "error" | "warning" | "note";
export type Weight = "stop" | "pause" | "whisper";
export type Basis = "written" | "worked out";
export type Terms = "US" | "UK";
export type CueKind = "stuff" | "tail" | "close" | "colour" | "eyes" | "shape" | "weave" | "sew" | "turn" | "fasten" | "marker" | "hold" | "join" | "pin" | "embroider" | "count" | "other";
export type Node = Group | Repeat;

export interface Allowed {
  changes: string[];
  stays: string[];
  mind: string[];
}

export interface Caution {
  id: string;
  text: string;
  source: string;
}

export interface Course {
  id: string;
  label: string;
  kind: "round" | "row";
  uses: number | null;
  makes: number | null;
  declared: number | null;
  text: string;
  line: number;
  body: Node[];
  read: boolean;
  spiral: boolean;
  plain: boolean;
  words: Words;
}

export interface Cue {
  address: string;
  after: string;
  course_id: string | null;
  at: number | null;
  kind: CueKind;
  text: string;
  basis: Basis;
  weight: Weight;
  line: number;
  advice: string;
  words: Words;
}

export interface Fabric {
  stitch_mm: number;
  row_mm: number;
  spread: number;
  kind: string;
}

export interface Finding {
  severity: Severity;
  code: string;
  line: number;
  column: number;
  span: number;
  piece: string | null;
  course: string | null;
  course_id: string | null;
  message: string;
  expected: number | null;
  found: number | null;
  suggestions: Suggestion[];
}

export interface FinishItem {
  id: string;
  kind: CueKind | "block" | "look" | "tug";
  text: string;
  more: string;
  spoken: string;
  basis: Basis;
  cue: string | null;
  card: string | null;
}

export interface Gathered {
  title: string;
  pieces: Wanted[];
  items: Item[];
  first: string[];
  cautions: Caution[];
  said: string[];
}

export interface Group {
  type: "group";
  stitch: string;
  count: number;
  uses: number;
  makes: number;
  steps: number;
  loops: "back" | "front" | null;
  into: string | null;
  colour: string | null;
  words: Words;
}

export interface Habits {
  terms: Terms;
  because: string;
  plain: Allowed;
  invisible: Allowed;
  spiral: Allowed;
}

export interface Item {
  id: string;
  kind: "hook" | "yarn" | "notion";
  name: string;
  amount: string;
  metres: Spread | null;
  grams: Spread | null;
  printed: string;
  why: string;
  forgotten: boolean;
}

export interface JoinPart {
  number: number;
  name: string;
  copies: number;
  stitches: number | null;
}

export interface Joined {
  names: string[];
  height_mm: Spread;
}

export interface Joining {
  piece: number;
  course_id: string;
  label: string;
  kind: "round" | "row";
  parts: JoinPart[];
  makes: number | null;
  yarn: string;
  say: string;
}

export interface Measures {
  pieces: PieceMeasures[];
  whole: Whole | null;
  fabric: Fabric;
  yarn_m: YarnSpread;
  yarn_g: Spread | null;
  stuffing_g: Spread;
  basis: string[];
  warnings: string[];
}

export interface Pattern {
  format: 1;
  title: string;
  terms: Terms;
  terms_because: string;
  hook: string;
  gauge: string;
  materials: string[];
  notes: string[];
  abbreviations: Record<string, string>;
  pieces: Piece[];
  joinings: Joining[];
  findings: Finding[];
}

export interface Piece {
  name: string;
  make: number;
  line: number;
  courses: Course[];
  cues: Cue[];
}

export interface PieceMeasures {
  name: string;
  make: number;
  height_mm: Spread;
  width_mm: Spread;
  depth_mm: number;
  widest_at: string;
  surface_cm2: number;
  volume_cm3: Spread;
  stuffing_g: Spread;
  yarn_m: YarnSpread;
  openings_mm: (number | null)[];
  lies_flat: boolean;
  ruffled_at: string[];
  profile_mm: [number, number][];
  straight_mm: number;
  corners: number;
  joined: Joined | null;
  said: string[];
}

export interface Repeat {
  type: "repeat";
  body: Node[];
  times: number;
}

export interface Spread {
  value: number;
  low: number;
  high: number;
}

export interface Strand {
  format: 1;
  id: string;
  piece: string;
  terms: Terms;
  length: number;
  courses: StrandCourse[];
  cues: StrandCue[];
}

export interface StrandCourse {
  id: string;
  label: string;
  kind: "round" | "row";
  first: number;
  end: number;
  uses: number | null;
  makes: number | null;
  declared: number | null;
  text: string;
  body: Node[];
  read: boolean;
  spiral: boolean;
  plain: boolean;
  plain_index: number | null;
  plain_of: number | null;
  plain_from: string | null;
  plain_to: string | null;
  words: Words;
}

export interface StrandCue {
  address: string;
  step: number;
  kind: CueKind;
  text: string;
  basis: Basis;
  weight: Weight;
  words: Words;
}

export interface Suggestion {
  label: string;
  start: number;
  end: number;
  replacement: string;
}

export interface Wanted {
  number: number;
  name: string;
  copies: number;
  printed: number;
}

export interface Whole {
  height_mm: Spread;
  of: string[];
  said: string[];
}

export interface Words {
  short: string;
  full: string;
  spoken: string;
}

export interface YarnSpread {
  value: number;
  low: number;
  high: number;
  by_colour: Record<string, number>;
}
