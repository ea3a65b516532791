import { markElements } from './elements.js';
import type { Meaning } from './written.js';

/** What is known of how a note is played. */
export interface NotePlaying {
  /** Its marks by their canonical names: elements of MusicXML, playing words. */
  readonly marks?: readonly string[];
  /** What it sounds with (see `soundMeaning`). */
  readonly meaning?: Meaning;
}

/** How a note is written. */
export interface NoteSigns {
  /** Names of `markElements`, each once. */
  readonly elements: readonly string[];
  /** Words that hold for this note alone. */
  readonly words: readonly string[];
  /** Words that hold until they are taken back. */
  readonly state: PlayingState;
  readonly isLegato: boolean;
}

/** What a player has set up; '' is as usual. */
export interface PlayingState {
  readonly bow: '' | 'pizz.' | 'col legno';
  readonly mute: '' | 'con sord.';
  readonly place: '' | 'sul pont.' | 'sul tasto';
}

export const usualState: PlayingState = { bow: '', mute: '', place: '' };

/** Words that take a state back (common practice, no source). */
const takenBack = { bow: 'arco', mute: 'senza sord.', place: 'nat.' } as const;

/**
 * What an articulation of M2-123 is written as, by its class and subclass: names of elements, or words. Plain sounds and
 * those that notation has no sign for are missing.
 */
const byArticulation: ReadonlyMap<number, readonly string[]> = new Map([
  [0x106, ['strong-accent']],
  [0x107, ['strong-accent']],
  [0x108, ['senza vibr.']],
  [0x109, ['con vibr.']],
  [0x104, ['gliss.']],
  [0x110, ['staccato']],
  [0x111, ['staccato']],
  [0x112, ['staccato']],
  [0x113, ['accent', 'staccato']],
  [0x114, ['staccatissimo']],
  [0x115, ['spiccato']],
  [0x116, ['spiccato']],
  [0x117, ['strong-accent', 'staccato']],
  [0x118, ['detached-legato']],
  [0x119, ['detached-legato']],
  [0x11b, ['snap-pizzicato']],
  [0x120, ['tremolo']],
  [0x121, ['tremolo']],
  [0x122, ['tremolo']],
  [0x124, ['double-tongue']],
  [0x125, ['triple-tongue']],
  [0x130, ['trill-mark']],
  [0x131, ['trill-mark']],
  [0x132, ['trill-mark']],
  [0x133, ['trill-mark']],
  [0x140, ['harmonic']],
  [0x141, ['harmonic']],
  [0x143, ['flautando']],
  [0x146, ['cuivré']],
  [0x147, ['lontano']],
  [0x150, ['falloff']],
  [0x151, ['plop']],
  [0x152, ['doit']],
  [0x153, ['scoop']],
  [0x158, ['shake']],
]);

/** Playing words that have an element. */
const wordElements: ReadonlyMap<string, string> = new Map([
  ['marc.', 'strong-accent'],
  ['ten.', 'tenuto'],
  ['stacc.', 'staccato'],
  ['trem.', 'tremolo'],
]);
const states: ReadonlyMap<string, Partial<PlayingState>> = new Map<string, Partial<PlayingState>>([
  ['pizz.', { bow: 'pizz.' }],
  ['col legno', { bow: 'col legno' }],
  ['arco', { bow: '' }],
  ['con sord.', { mute: 'con sord.' }],
  ['senza sord.', { mute: '' }],
  ['sul pont.', { place: 'sul pont.' }],
  ['sul tasto', { place: 'sul tasto' }],
]);

/**
 * How a note is written: what its marks say, and what its articulation means where no mark says so already. A length
 * that is as usual (tenuto) is written only where the music marks it.
 */
export function signsOf({ marks = [], meaning = {} }: NotePlaying): NoteSigns {
  const told = [...marks, ...meant(meaning, marks)];
  const names = told.map((name) => wordElements.get(name) ?? name);
  const state: PlayingState = Object.assign(stateOf(meaning), ...told.map((name) => states.get(name)));
  const isKnown = (name: string) => markElements.has(name) || states.has(name) || name === 'legato';
  return {
    elements: [...new Set(names.filter((name) => markElements.has(name)))],
    words: [...new Set(names.filter((name) => !isKnown(name)))],
    state,
    isLegato: told.includes('legato'),
  };
}

/** Marks of length and attack: where one stands, the articulation's own sign is not written beside it. */
const ofLength = new Set([
  ...['staccato', 'staccatissimo', 'spiccato', 'tenuto', 'detached-legato', 'strong-accent', 'accent'],
  ...['stacc.', 'ten.', 'marc.', 'legato'],
]);

function meant({ articulation, direction, mute }: Meaning, marks: readonly string[]): readonly string[] {
  const names: string[] = [];
  if (direction) names.push(direction === 'down' ? 'down-bow' : 'up-bow');
  const stopped = 14;
  if (mute === stopped) names.push('stopped');
  if (!articulation) return names;
  const { type, subclass } = articulation;
  const isLegato = type === 0x10 && (subclass === 2 || subclass === 3);
  const own = isLegato ? ['legato'] : (byArticulation.get(type * 16 + subclass) ?? []);
  const isMarked = marks.some((mark) => ofLength.has(mark));
  return [...names, ...own.filter((name) => !(isMarked && ofLength.has(name)))];
}

function stateOf({ articulation, mute = 0, position }: Meaning): PlayingState {
  const id = articulation ? articulation.type * 16 + articulation.subclass : 0;
  const bow = id === 0x11a ? 'pizz.' : id === 0x11c || id === 0x11d || id === 0x142 ? 'col legno' : '';
  const usual = 0x80000000;
  const place =
    position === undefined || position === usual ? '' : position < usual ? 'sul pont.' : 'sul tasto';
  // Hand, stopped and harmon mutes have signs at the note.
  const hasSign = mute === 13 || mute === 14 || (mute >= 4 && mute <= 6);
  return { bow, mute: mute === 0 || hasSign ? '' : 'con sord.', place };
}

/** The words that lead from one state to the next. */
export function wordsBetween(before: PlayingState, after: PlayingState): readonly string[] {
  const keys = ['bow', 'mute', 'place'] as const;
  return keys.flatMap((key) =>
    before[key] === after[key] ? [] : [after[key] === '' ? takenBack[key] : after[key]],
  );
}
