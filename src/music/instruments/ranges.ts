import type { PitchRange } from './pitch-range.js';

/** An instrument of the orchestra, or a voice; its range in sounding pitches. */
export interface Instrument extends PitchRange {
  readonly family: 'woodwind' | 'brass' | 'strings' | 'voices' | 'other';
  /** How its low and its very high register sound. */
  readonly character?: { readonly low: string; readonly high: string };
}

/**
 * Ranges as they sound (MIDI notes, 60 is middle C). Most are of the Orchestra Library's table "Ranges of Orchestral
 * Instruments" (OL; orchestralibrary.com/reftables/rang.html), which prints written notes: piccolo to bass clarinet were
 * read there but for flute and oboe, the others in transcriptions of it. Sounding ranges of
 * compositionteaching.com/instrument-ranges (CT) say the same for brass and, but for the highest notes, for strings.
 *
 * Characters are of Rimsky-Korsakov, Principles of Orchestration, chapter I (Project Gutenberg eBook 33900): his words
 * for the low and the very high register of four woodwinds. His own limits of registers are printed as music there.
 *
 * Licences: the book is in the public domain (1844–1908; English edition 1922); limits of instruments are facts, here set
 * side by side from several tables, and need none. The lowest notes of music21 (BSD) are the same but for four.
 */
export const instruments = {
  // OL: written D4–C7, an octave higher
  piccolo: { family: 'woodwind', low: 74, high: 108 },
  // OL, CT: C4–D7
  flute: {
    family: 'woodwind',
    low: 60,
    high: 98,
    character: { low: 'dull, cold', high: 'brilliant' },
  },
  // OL: written C4–C7, a fourth lower
  'alto flute': { family: 'woodwind', low: 55, high: 91 },
  // OL: B♭3–A6 (CT: G6)
  oboe: { family: 'woodwind', low: 58, high: 93, character: { low: 'wild', high: 'hard, dry' } },
  // OL: written B3–G6, a fifth lower
  'English horn': { family: 'woodwind', low: 52, high: 84 },
  // OL, CT: written E3–C7, in B♭ a whole tone lower
  clarinet: {
    family: 'woodwind',
    low: 50,
    high: 94,
    character: { low: 'ringing, threatening', high: 'piercing' },
  },
  // OL: written C3–G6 (E♭3 without the extension), in B♭ a ninth lower
  'bass clarinet': { family: 'woodwind', low: 34, high: 77 },
  // OL, CT: B♭1–E♭5
  bassoon: { family: 'woodwind', low: 34, high: 75, character: { low: 'sinister', high: 'tense' } },
  // OL: written B♭1–B♭4, an octave lower
  contrabassoon: { family: 'woodwind', low: 22, high: 58 },
  // OL, CT: written F♯2–C6, in F a fifth lower
  horn: { family: 'brass', low: 35, high: 77 },
  // OL, CT: written F♯3–D6, in B♭ a whole tone lower
  trumpet: { family: 'brass', low: 52, high: 84 },
  // OL, CT: E2–F5
  trombone: { family: 'brass', low: 40, high: 77 },
  // from memory: B♭1–B♭4
  'bass trombone': { family: 'brass', low: 34, high: 70 },
  // OL, CT: D1–F4
  tuba: { family: 'brass', low: 26, high: 65 },
  // OL: D2–C4 (CT: A3)
  timpani: { family: 'other', low: 38, high: 60 },
  // CT: C♭1–G♯7
  harp: { family: 'other', low: 23, high: 104 },
  // OL: G3–A7 (CT: E7)
  violin: { family: 'strings', low: 55, high: 105 },
  // OL, CT: C3–E6
  viola: { family: 'strings', low: 48, high: 88 },
  // OL, CT: C2–C6
  cello: { family: 'strings', low: 36, high: 84 },
  // OL: written C2–C5 (E2 without the extension), an octave lower
  'double bass': { family: 'strings', low: 24, high: 60 },
  // voices from memory: solo ranges, within which choirs keep
  soprano: { family: 'voices', low: 60, high: 84 },
  alto: { family: 'voices', low: 53, high: 77 },
  tenor: { family: 'voices', low: 48, high: 72 },
  baritone: { family: 'voices', low: 43, high: 67 },
  bass: { family: 'voices', low: 40, high: 64 },
} as const satisfies Readonly<Record<string, Instrument>>;

export type InstrumentName = keyof typeof instruments;

/** What the table has of an instrument. */
export function instrumentNamed(name: InstrumentName): Instrument {
  return instruments[name];
}
