// Names, units and meanings are those of the set-up document and the report: see engine/document/FORMATS.md of the project.

/** A number for all strings, or one for each, lowest first. */
export type PerString = number | number[];

export interface GuitarString {
  gauge_in: number;
  wound: boolean;
  core_in?: number | null;
  core?: "round" | "hex";
  unit_weight_g_m?: number | null;
  wrap?: "nickel plated steel" | "nickel" | "stainless steel";
}

export interface Spring {
  rate_n_mm: number;
  free_length_mm: number;
  initial_tension_n: number;
  longest_mm: number;
}

/** Hook and hole are counted from 0 at the bass side. */
export interface PlacedSpring {
  hook: number;
  hole: number;
  spring?: Spring | null;
}

export interface Guitar {
  scale_mm: PerString;
  nut_locked?: boolean;
  nut_clamps?: boolean | null;
  headstock_mm: PerString;
  held?: "playing" | "on its back";
  bridge: {
    saddle_height_mm: PerString;
    saddle_setback_mm: PerString;
    anchor_mm: PerString;
    block_depth_mm: number;
    block_setback_mm: number;
    tail_mm: number;
    tail_limits_mm: [number, number];
    mass_g?: number;
    mass_setback_mm?: number;
    kind?: "knife edge" | "two posts" | "screw plate" | null;
    return_cents?: number | null;
  };
  bay: {
    hole_mm: number[];
    hook_mm: number[];
    claw_depth_mm: number;
    screw_span_mm: number;
    screw_pitch_mm: number;
    turns_in_left: number;
    turns_out_left: number;
  };
  spring: Spring;
  springs_owned?: number;
  other_springs?: {
    count: number;
    spring: Spring;
  }[];
  basis?: Record<string, "usual" | "measured" | "guess">;
}

export interface Reading {
  reading?: "in tune" | "after turn" | "after pass" | "bend" | "drop" | "wedge out";
  string?: number;
  by_cents?: number;
  strings: "now" | "next";
  tuning: "now" | "next";
  springs: PlacedSpring[];
  turns: [number, number];
  tail_mm?: number | null;
  cents?: (number | null)[] | null;
  aim_cents?: number[] | null;
  own?: {
    strings: GuitarString[];
    tuning: string[];
    offset_cents?: PerString;
  } | null;
  from_slack?: boolean;
  counted?: boolean;
}

/** Where the job at the bench has got to; its readings are in the log. */
export interface Bench {
  way: "wedge" | "plain";
  test: boolean;
  before?: {
    turns: [number, number];
    springs: PlacedSpring[];
    strings_on: boolean;
  } | null;
  strings_since?: number;
  tuning_since?: number;
  done?: {
    do: "note" | "test" | "open the nut" | "close the nut" | "slacken" | "springs" | "turn" | "turn until" | "strings" | "wedge in" | "wedge out" | "tune" | "read" | "wait" | "check" | "finished" | "cannot";
    how?: "aimed" | "rough" | "plain" | null;
    turned?: [number, number] | null;
    off?: PlacedSpring[] | null;
    on?: PlacedSpring[] | null;
    happened?: "wedge fell out" | "string broke" | "spring off" | "screw hard" | "no thread" | "wedge will not go in" | null;
    string?: number;
    hook?: number;
    entered?: number;
  }[];
}

export interface Setup {
  format: "counterpull-setup/1";
  title?: string;
  a4_hz?: number;
  guitar: Guitar;
  now: {
    in_tune?: boolean;
    tuning?: string[];
    offset_cents?: PerString;
    strings?: GuitarString[];
    springs: PlacedSpring[];
    tail_mm: number;
    tail_sides_mm?: [number, number] | null;
    spring_mm?: number[] | null;
  };
  next: {
    tuning: string[];
    offset_cents?: PerString;
    strings: GuitarString[];
    tail_mm?: number;
    rest?: "floating" | "on the body";
    springs?: PlacedSpring[] | null;
  };
  log?: Reading[];
  bench?: Bench | null;
}

export interface State {
  strings: { pitch_hz: number; tension_n: number | null; strength_used: number | null }[];
  total_tension_n: number | null;
  springs: { force_n: number; length_mm: number }[];
  angle_deg: number;
  tail_mm: number;
}

export interface Advice {
  springs: PlacedSpring[];
  /** By the player, in next.springs. */
  chosen: boolean;
  /** Predicted, by the way that takes the least; null where no claw position does it. */
  work: { visits: number | null; minutes: number | null; way: "plain" | "wedge"; test: boolean };
  turns: number | null;
  turns_sigma: number | null;
  more_turns: number | null;
  fits: boolean;
  reasons: string[];
  [more: string]: unknown;
}

export interface Report {
  format: "counterpull-report/1";
  now: State;
  untouched: { outcome: "floats" | "tail up stop" | "tail down stop"; angle_deg: number; tail_mm: number; per_turn_mm: number | null };
  /** Best first, never empty. */
  advice: [Advice, ...Advice[]];
  next: State | null;
  tuning_sheet: { start: string; aim_cents: number[]; plain_passes: number | null; [more: string]: unknown } | null;
  fitted: Record<string, { value: number; sigma: number }>;
  /** Of the readings; `sigmas`: how many spreads the worst is off; `starts`: from how many points it was sought. */
  fit: { converged: boolean; sigmas: number; starts: number } | null;
  warnings: string[];
  [more: string]: unknown;
}

export interface Problem {
  /** Such as "next.strings[2].gauge_in"; "" for the whole. */
  path: string;
  expected: string;
}

/** Thrown where a document or link is refused; `message` is the first problem and how many more there are. */
export class Refused extends Error {
  problems: Problem[];
}

// Each of these throws a RangeError where memory ends; the next call is answered as ever.

/** The whole answer to a set-up, given as a document or as its text. */
export function report(setup: Setup | string): Report;
/** What is asked by a step, and what happened instead; each part optional unless it is needed. */
export interface Answer {
  tail_mm?: number;
  /** Bass and treble: their mean is then the tail. */
  tail_sides_mm?: [number, number];
  /** Per string, lowest first, null where not read. */
  cents?: (number | null)[];
  in_tune?: boolean;
  /** What was really turned, bass and treble screw, + is tighter. */
  turned?: [number, number];
  happened?: "wedge fell out" | "string broke" | "spring off" | "screw hard" | "no thread" | "wedge will not go in";
  string?: number;
  hook?: number;
}

/** The step that is due; what its kind says besides stands in the project's engine/document/FORMATS.md. */
export interface BenchStep {
  format: "counterpull-bench/1";
  step: number;
  of: number;
  do: string;
  say: string;
  cautions: string[];
  asks: { field: "tail_mm" | "cents"; string?: number; needed: boolean; expected?: number }[];
  reading: string | null;
  tuning: string[];
  offset_cents: number[];
  way: "wedge" | "plain";
  test: boolean;
  [more: string]: unknown;
}

/** The step of the job that is due. */
export function bench(setup: Setup | string): BenchStep;
/** The set-up once that step is done, or has gone wrong. */
export function answered(setup: Setup | string, answer?: Answer | string): Setup;
/** The part of an address after "#" that carries the set-up. */
export function toLink(setup: Setup | string): string;
/** The set-up of such a fragment, with or without "#", or of a whole address. */
export function fromLink(link: string): Setup;
