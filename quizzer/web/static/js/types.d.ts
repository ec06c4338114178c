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

export interface Outcome {
  right: boolean;
  said: string;
  rounded?: boolean;
  guessed?: string;
  why?: string;
}

export interface Question {
  entry: string;
  seed: number;
  digest: string;
  asked: string;
  session: number;
  title: string;
  kind: "choose" | "number" | "order";
  ask: string;
  wanted: string;
  options?: [string, string][];
  outcomes: Record<string, Outcome>;
  answer: string;
  reason?: string;
  working?: string;
  behind: string;
  back: string[];
  key?: string;
  number?: Wanted;
}

export interface Pack {
  version: number;
  issued: string;
  day: string;
  trainee: string;
  sure: string[];
  quality: { right: number[]; wrong: number[]; rounded: number };
  certain: string;
  again: Record<string, string>;
  units: { words: Record<string, [number, string, string]>; typed: Record<string, string>; bare: string };
  questions: Question[];
}

export interface Taken {
  id: string;
  pack: Pack;
  offset: number;
  done: Record<string, boolean>;
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
  reason?: string;
}

export interface Waiting {
  id: string;
  trainee: string;
  event: Event;
  refused?: string;
}

export interface Word {
  accepted: { id: string; right?: boolean; agreed: boolean; entry: string }[];
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
