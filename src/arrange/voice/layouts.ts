import type { ChordToVoice } from './chords.js';
import { costs, distinct, layoutCost } from './cost.js';
import { faultsOf, isGap, isMuddy } from './faults.js';
import type { Voice, VoiceOptions } from './types.js';

/** A voice that rests. */
export const rest = -1;

/** A way to lay a chord out. */
export interface Layout {
  /** For each voice its pitch, low voices first; −1 where it rests. */
  readonly pitches: readonly number[];
  /** What it costs by itself. */
  readonly cost: number;
}

/** The layouts of a chord. */
export interface Layouts {
  /** In a fixed order; at least one. */
  readonly layouts: readonly Layout[];
  /** Every layout has a fault, or voices cross though they should not. */
  readonly isCramped: boolean;
  /** There were more than are looked at. */
  readonly isCut: boolean;
}

/** So many layouts of one chord are looked at; where there are more, those that cost least by themselves. */
export const mostLayouts = 20_000;

/**
 * All ways to lay a chord out for some voices: each voice on a tone of the chord within its range, the lowest on the
 * bass, the tune where it is, no voice below a lower one. Those with a fault (`faultsOf`) only where there are no
 * others; crossing voices only where there are not even those, or where it was asked for.
 *
 * @param tuneVoice index of the voice with the tune; −1 where there is none
 */
export function layoutsOf(
  chord: ChordToVoice,
  voices: readonly Voice[],
  tuneVoice: number,
  options: VoiceOptions,
): Layouts {
  const choices = voices.map((voice, index) => choicesOf(chord, voice, index, tuneVoice));
  const attempts: readonly (readonly [step: Step, most: number, isCramped: boolean])[] =
    options.crossing === true
      ? [
          [anyStep, mostUnordered, false],
          [anyStep, mostUnordered, true],
        ]
      : [
          [cleanStep, mostOrdered, false],
          [orderedStep, mostOrdered, true],
          [anyStep, mostUnordered, true],
        ];
  for (const [step, most, isCramped] of attempts) {
    const few = narrowed(choices, voices, most);
    const all = combinations(few, step);
    const found = isCramped ? all : all.filter((pitches) => isClean(pitches, voices, chord));
    if (found.length === 0) continue;
    const isCut = few.some(({ length }, index) => length < (choices[index]?.length ?? 0));
    return cheapest(weighed(found, chord, voices, options, isCramped), isCramped, isCut);
  }
  return { layouts: [{ pitches: voices.map(() => rest), cost: 0 }], isCramped: true, isCut: false };
}

function isClean(pitches: readonly number[], voices: readonly Voice[], chord: ChordToVoice): boolean {
  const [sounding] = soundingOf(pitches, voices);
  return faultsOf(distinct(sounding), sounding, chord) === 0;
}

function weighed(
  found: readonly (readonly number[])[],
  chord: ChordToVoice,
  voices: readonly Voice[],
  options: VoiceOptions,
  hasFaults: boolean,
): readonly Layout[] {
  return found.map((pitches) => {
    const [sounding, playing] = soundingOf(pitches, voices);
    const faults = hasFaults ? faultsOf(distinct(sounding), sounding, chord) : 0;
    return { pitches, cost: layoutCost(sounding, playing, chord, options) + costs.fault * faults };
  });
}

function cheapest(layouts: readonly Layout[], isCramped: boolean, isCut: boolean): Layouts {
  if (layouts.length <= mostLayouts) return { layouts, isCramped, isCut };
  const kept = layouts
    .map((layout, index) => ({ layout, index }))
    .sort((a, b) => a.layout.cost - b.layout.cost || a.index - b.index)
    .slice(0, mostLayouts);
  return { layouts: kept.map(({ layout }) => layout), isCramped, isCut: true };
}

/** The pitches that sound, and whose they are. */
function soundingOf(
  pitches: readonly number[],
  voices: readonly Voice[],
): readonly [sounding: readonly number[], playing: readonly Voice[]] {
  if (!pitches.includes(rest)) return [pitches, voices];
  const sounds = (index: number) => pitches[index] !== rest;
  return [pitches.filter((_, index) => sounds(index)), voices.filter((_, index) => sounds(index))];
}

/** The pitches that a voice may have; a rest where it has none. */
function choicesOf(
  { tones, bass, tune }: ChordToVoice,
  { range, register }: Voice,
  index: number,
  tuneVoice: number,
): readonly number[] {
  if (index === tuneVoice && tune !== null) return [tune];
  // A melody alone is not doubled.
  if (tuneVoice >= 0 && tones.size < 2) return [rest];
  const all = (fits: (pitchClass: number) => boolean) => {
    const found: number[] = [];
    for (let pitch = range.low; pitch <= range.high; pitch++) if (fits(pitch % 12)) found.push(pitch);
    return found;
  };
  const isTone = (pitchClass: number) => tones.has(pitchClass);
  const found = index === 0 ? all((pitchClass) => pitchClass === bass) : all(isTone);
  const usable = found.length > 0 ? found : all(isTone);
  const near = usable.filter((pitch) => pitch >= register.low - reach && pitch <= register.high + reach);
  // Below or above a tune that lies elsewhere, voices go with it.
  const chosen = near.length > 0 && tune === null ? near : usable;
  return chosen.length > 0 ? chosen : [rest];
}

/** How far beyond its register a voice is looked for, where no tune draws it away. Unit: semitones. Own choice. */
const reach = 7;

/** Whether a pitch may stand above another; `isLowest` where only one pitch lies below it. */
type Step = (below: number, pitch: number, isLowest: boolean) => boolean;

const anyStep: Step = () => true;
const orderedStep: Step = (below, pitch) => below <= pitch;
const cleanStep: Step = (below, pitch, isLowest) =>
  below <= pitch && !isMuddy(below, pitch) && !isGap(below, pitch, isLowest);

/** More combinations of pitches than this are not looked at: of voices in order, of voices that may cross. */
const mostOrdered = 250_000;
const mostUnordered = 60_000;

/** All combinations of choices whose neighbours fit, in order of the first voice's choice, then the second's … */
function combinations(choices: readonly (readonly number[])[], fits: Step): readonly (readonly number[])[] {
  const found: (readonly number[])[] = [];
  const extend = (pitches: readonly number[], below: number, count: number) => {
    const own = choices[pitches.length];
    if (!own) found.push(pitches);
    for (const pitch of own ?? []) {
      if (pitch === rest) extend([...pitches, rest], below, count);
      else if (below === rest || fits(below, pitch, count < 2))
        extend([...pitches, pitch], pitch, isOfBass(below, pitch, count) ? 1 : count + 1);
    }
  };
  extend([], rest, 0);
  return found;
}

/** Octaves of the lowest pitch upon it are part of the bass. */
function isOfBass(below: number, pitch: number, count: number): boolean {
  return count === 1 && (pitch === below || pitch === below + 12);
}

/** Fewer choices where all combinations would be too many: those farthest from the middles of registers go first. */
function narrowed(
  choices: readonly (readonly number[])[],
  voices: readonly Voice[],
  most: number,
): readonly (readonly number[])[] {
  const kept = choices.map((own) => [...own]);
  const product = () => kept.reduce((sum, { length }) => sum * length, 1);
  while (product() > most) {
    const widest = kept.reduce(
      (best, { length }, index) => (length > (kept[best]?.length ?? 0) ? index : best),
      0,
    );
    const { low, high } = voices[widest]?.register ?? { low: 0, high: 0 };
    const far = (pitch: number) => Math.abs(pitch - (low + high) / 2);
    const own = kept[widest] ?? [];
    const farthest = own.reduce((worst, pitch) => (far(pitch) > far(worst) ? pitch : worst), own[0] ?? rest);
    kept[widest] = own.filter((pitch) => pitch !== farthest);
  }
  return kept;
}
