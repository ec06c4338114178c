/** What the server packs (`quizzer/web/packs.py`), what a phone keeps and sends (`workflows/study/events.py`). */

export interface Wanted {
  value: number;
  unit: string;
  tolerance: number;
  lastPlace: number;
  like: string;
  coarse: number;
  coarser: [number, number][];
  diagnoses: [number, number][];
}

/** What a reply leads to: its mark, and what is said of it as HTML. */
export interface Outcome {
  mark: "right" | "wrong" | "rounded";
  html: string;
}

export interface Question {
  entry: string;
  seed: number;
  digest: string;
  asked: string;
  session: number;
  kind: "choose" | "number" | "order";
  html: string;
  outcomes: Record<string, Outcome>;
  after: string;
  behind: string;
  labels?: string;
  key?: string;
  number?: Wanted;
  /** Asked again in its session, and what of the working. */
  drill?: boolean;
  exercise?: string;
}

/** An entry that is asked again, and how; which question of the session it was, and when that began. */
export interface Repeat {
  entry: string;
  exercise: string;
  nth: number;
  session: number;
  began: number;
}

export interface Pack {
  version: number;
  issued: string;
  day: string;
  trainee: string;
  /** For how many seconds of a session something is asked again. */
  until: number;
  sure: string[];
  again: Record<string, string>;
  units: { words: Record<string, [number, string, string]>; typed: Record<string, string>; bare: string };
  questions: Question[];
  /** What may be asked again; not there while questions are being drawn. */
  repeats?: Question[];
}

/** A pack in use: how far the phone's clock is off, and whether what was answered of it was right. */
export interface Taken {
  pack: Pack;
  offset: number;
  done: Record<string, boolean>;
  repeats?: Repeat[];
}

export interface Event {
  version: number;
  id: string;
  kind: "answer" | "dispute";
  entry: string;
  digest: string;
  trainee: string;
  device: string;
  sequence: number;
  at: string;
  issued: string;
  seed?: number;
  asked?: string;
  reply?: string;
  right?: boolean;
  confidence?: string | null;
  took?: number;
  drill?: boolean;
  exercise?: string;
  reason?: string;
}

export interface Waiting {
  id: string;
  trainee: string;
  event: Event;
  refused?: string;
}

export interface Word {
  /** Of what was marked otherwise than here, what is said of it. */
  accepted: { id: string; right?: boolean; agreed: boolean; entry: string; said?: string }[];
  rejected: { id: string; reason: string }[];
  now: string;
}

interface Doors {
  createHTML(text: string): string;
  createScriptURL(address: string): string;
}

declare global {
  /** Not in every browser yet. */
  var trustedTypes: { createPolicy(name: string, doors: Doors): Doors } | undefined;
}
