/** Every reason for which nothing is heard, with what it means. */
export const hearCodes = {
  'bank-unknown': 'The file is no bank of sounds that is understood: neither SoundFont 2 or 3 nor DLS.',
  'bank-truncated': 'A bank ends before the sizes that are written in it say.',
  'bank-too-large': 'A bank is larger than the limit, or unfolds to more than the limit.',
  'bank-structure': 'A bank lacks a part that it needs, or has one that means nothing.',
  'bank-sound': 'A sound of a bank that the music needs cannot be played.',
  'no-library': 'The library that makes the sound, or the one that compresses it, is not installed.',
  'nothing-to-hear': 'No note is left to be heard.',
  'sound-long': 'There is more sound than a WAV file holds.',
  'sound-failed': 'The library that makes the sound gave up, or what it made is no sound.',
} as const;

export type HearCode = keyof typeof hearCodes;

/** What is wrong, as a value: one sentence, and what would be right. Texts of a bank in it are not escaped yet. */
export interface HearProblem {
  readonly code: HearCode;
  readonly message: string;
  readonly hint?: string;
  /** The byte of the bank, from 0, at which it was found. */
  readonly offset?: number;
}

/** A value, or the one reason why there is none. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problem: HearProblem };

export function found<T>(value: T): Result<T> {
  return { ok: true, value };
}

export function failed(code: HearCode, message: string, more: Omit<HearProblem, 'code' | 'message'> = {}) {
  return { ok: false, problem: { code, message, ...more } } as const;
}
