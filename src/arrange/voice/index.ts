/** Chords of a sketch, laid out for the parts of a cue. */
import type { Slice } from '../slices.js';
import type { ArrangeRemark } from '../types.js';
import { faultsOfParts } from './checks.js';
import { type ChordToVoice, chordsToVoice } from './chords.js';
import { doublingVoice } from './doubling.js';
import { type Layouts, layoutsOf, mostLayouts, rest } from './layouts.js';
import { notesOfVoice, type Takes } from './notes.js';
import { cheapestPath } from './search.js';
import { tuneInRange } from './tune.js';
import type { Harmonic, Voice, Voiced, VoicedPart, VoiceOptions, VoicePart } from './types.js';
import { searchedVoices, voicesOf } from './voices.js';

export { costs } from './cost.js';
export type { Harmonic, PitchSpan, Voiced, VoicedPart, VoiceOptions, VoicePart } from './types.js';

/** So many voices are searched together; further ones double (`doublingVoice`). */
export const mostSearched = 5;

/**
 * Lays the chords of a sketch out for parts: every part within its range, only tones of the sketch, its bass in the
 * lowest voice, no crossing unless asked, nothing that `inspect` remarks upon where that can be. Up to five voices are
 * laid out together by an exact search for the least cost (`cheapestPath`, `costs`); of more, the others double them,
 * each by the same search for itself. It offers new parts; the sketch stays as it is. The same input gives the same
 * parts.
 *
 * @param slices of the sketch, see `slicesOf`
 * @param harmonics one for each slice
 */
export function voiceChords(
  slices: readonly Slice[],
  harmonics: readonly Harmonic[],
  parts: readonly VoicePart[],
  options: VoiceOptions,
): Voiced {
  const wrong = faultsOfParts(parts, options);
  if (wrong.length > 0 || slices.length === 0)
    return {
      parts: [],
      layouts: [],
      voices: [],
      cost: 0,
      remarks: [...wrong, ...(slices.length === 0 ? [nothing] : [])],
    };
  const { tune = 'top' } = options;
  const plain = chordsToVoice(slices, harmonics, tune !== 'none');
  const voices = voicesOf(
    parts,
    plain.reduce((most, { tones }) => Math.max(most, tones.size), 0),
  );
  const tuneVoice = tuneVoiceOf(voices, parts, tune);
  const { chords, remarks } = withTune(plain, slices, voices[tuneVoice], parts);
  const searched = searchedVoices(voices.length, mostSearched, tuneVoice);
  const core = searched.flatMap((index) => voices[index] ?? []);
  const coreTune = searched.indexOf(tuneVoice);
  const layouts = layoutsOfAll(chords, core, coreTune, options);
  const path = cheapestPath(
    layouts.map((one) => one.layouts),
    coreTune,
  );
  const found = layouts.map((one, index) => one.layouts[path.chosen[index] ?? 0]?.pitches ?? []);
  const columns = withDoubling(found, chords, voices, searched);
  return {
    parts: parts.map((part, index) => partOf(part, index, { voices, columns, chords, slices, tuneVoice })),
    layouts: chords.map(({ from }, index) => ({
      tick: slices[from]?.tick ?? 0,
      pitches: (columns[index] ?? []).map((pitch) => (pitch === rest ? null : pitch)),
    })),
    voices: voices.map(({ part }) => parts[part]?.name ?? ''),
    cost: path.cost,
    remarks: [
      ...remarks,
      ...remarksOnLayouts(layouts, chords, slices),
      ...remarksOnRests(columns, chords, voices, parts, slices),
    ],
  };
}

const nothing: ArrangeRemark = {
  code: 'no-chords',
  message: 'the sketch has no notes',
  hint: 'give a sketch with chords, or let `set` make one from symbols and a rhythm',
};

/** Its upper voice where the part is divided. */
function tuneVoiceOf(
  voices: readonly Voice[],
  parts: readonly VoicePart[],
  tune: NonNullable<VoiceOptions['tune']>,
): number {
  if (tune === 'none') return -1;
  if (tune === 'top') return voices.length - 1;
  const part = parts.findIndex(({ name }) => name === tune.part);
  return voices.findLastIndex((voice) => voice.part === part);
}

/** Chords that are alike have the same layouts. */
function layoutsOfAll(
  chords: readonly ChordToVoice[],
  voices: readonly Voice[],
  tuneVoice: number,
  options: VoiceOptions,
): readonly Layouts[] {
  const known = new Map<string, Layouts>();
  return chords.map((chord) => {
    const { tones, bass, tune, tuneOnly, leading, thirds } = chord;
    const key = JSON.stringify([[...tones], bass, tune, [...tuneOnly], leading, thirds]);
    const layouts = known.get(key) ?? layoutsOf(chord, voices, tuneVoice, options);
    known.set(key, layouts);
    return layouts;
  });
}

function withTune(
  plain: readonly ChordToVoice[],
  slices: readonly Slice[],
  voice: Voice | undefined,
  parts: readonly VoicePart[],
): { readonly chords: readonly ChordToVoice[]; readonly remarks: readonly ArrangeRemark[] } {
  if (!voice) return { chords: plain, remarks: [] };
  const { chords, octaves, single } = tuneInRange(plain, voice.range);
  const name = parts[voice.part]?.name ?? '';
  const place = { kind: 'part', name } as const;
  const hint = 'give the tune to a part that has it in its range';
  const remarks: ArrangeRemark[] = [];
  const by = Math.abs(octaves) === 1 ? 'an octave' : `${Math.abs(octaves)} octaves`;
  if (octaves !== 0) {
    const message = `the tune lies ${by} ${octaves > 0 ? 'higher' : 'lower'} than in the sketch`;
    remarks.push({ code: 'tune-moved', place, message, hint });
  }
  const [first] = single;
  if (first !== undefined) {
    const tick = slices[chords[first]?.from ?? 0]?.tick ?? 0;
    const message = `${single.length === 1 ? '1 note' : `${single.length} notes`} of the tune lie outside the part's range and are moved by octaves`;
    remarks.push({ code: 'tune-moved', place: { kind: 'music', tick }, message, hint });
  }
  return { chords, remarks };
}

function withDoubling(
  found: readonly (readonly number[])[],
  chords: readonly ChordToVoice[],
  voices: readonly Voice[],
  searched: readonly number[],
): readonly (readonly number[])[] {
  let columns = found;
  const placed = [...searched];
  voices.forEach((voice, index) => {
    if (placed.includes(index)) return;
    const at = placed.filter((other) => other < index).length;
    const line = doublingVoice(columns, chords, voice, at);
    columns = columns.map((column, chord) => column.toSpliced(at, 0, line[chord] ?? rest));
    placed.push(index);
    placed.sort((a, b) => a - b);
  });
  return columns;
}

function partOf(
  { name }: VoicePart,
  part: number,
  { voices, columns, chords, slices, tuneVoice }: Result,
): VoicedPart {
  const notes = voices.flatMap((voice, index) => {
    if (voice.part !== part) return [];
    const pitches = chords.flatMap(({ from, to }, chord) => {
      return new Array<number>(to - from).fill(columns[chord]?.[index] ?? rest);
    });
    return notesOfVoice(slices, pitches, takesOf(index, tuneVoice));
  });
  return { name, notes: withoutUnisons([...notes].sort((a, b) => a.tick - b.tick || a.pitch - b.pitch)) };
}

/** All voices over all chords. */
interface Result {
  readonly voices: readonly Voice[];
  readonly columns: readonly (readonly number[])[];
  readonly chords: readonly ChordToVoice[];
  readonly slices: readonly Slice[];
  readonly tuneVoice: number;
}

function takesOf(voice: number, tuneVoice: number): Takes {
  if (tuneVoice < 0) return 'any';
  return voice === tuneVoice ? 'tune' : 'under the tune';
}

/** Divided voices that meet on one pitch are one note; one that strikes a pitch that the other holds ends it there. */
function withoutUnisons(notes: VoicedPart['notes']): VoicedPart['notes'] {
  const next = new Map<number, number>();
  return notes
    .filter(({ tick, pitch }, index) => {
      const before = notes[index - 1];
      return before?.tick !== tick || before.pitch !== pitch;
    })
    .toReversed()
    .map((note) => {
      const limit = next.get(note.pitch) ?? Number.POSITIVE_INFINITY;
      next.set(note.pitch, note.tick);
      return note.endTick > limit ? { ...note, endTick: limit } : note;
    })
    .toReversed();
}

function remarksOnLayouts(
  layouts: readonly Layouts[],
  chords: readonly ChordToVoice[],
  slices: readonly Slice[],
): readonly ArrangeRemark[] {
  const at = (index: number) =>
    ({ kind: 'music', tick: slices[chords[index]?.from ?? 0]?.tick ?? 0 }) as const;
  return layouts.flatMap(({ isCramped, isCut }, index): ArrangeRemark[] => [
    ...(isCramped
      ? [
          {
            code: 'cramped',
            place: at(index),
            message: 'no layout for these ranges is free of low intervals, gaps or doubled leading tones',
            hint: 'give a part more range or leave one out; the least of them was chosen',
          } as const,
        ]
      : []),
    ...(isCut
      ? [
          {
            code: 'many-layouts',
            place: at(index),
            message: `there are more than ${mostLayouts} layouts; those that cost least by themselves were compared`,
            hint: 'give parts a register',
          } as const,
        ]
      : []),
  ]);
}

function remarksOnRests(
  columns: readonly (readonly number[])[],
  chords: readonly ChordToVoice[],
  voices: readonly Voice[],
  parts: readonly VoicePart[],
  slices: readonly Slice[],
): readonly ArrangeRemark[] {
  const first = new Map<number, number>();
  columns.forEach((column, index) => {
    if ((chords[index]?.tones.size ?? 0) < 2) return;
    column.forEach((pitch, voice) => {
      const part = voices[voice]?.part ?? 0;
      if (pitch === rest && !first.has(part)) first.set(part, index);
    });
  });
  return [...first].map(([part, index]): ArrangeRemark => {
    const tick = slices[chords[index]?.from ?? 0]?.tick ?? 0;
    const message = `"${parts[part]?.name ?? ''}" rests where no tone of the chord is free for it: outside its range, or one too many`;
    const hint = 'give it more range, or leave it out of the voicing';
    return { code: 'part-rests', place: { kind: 'music', tick }, message, hint };
  });
}
