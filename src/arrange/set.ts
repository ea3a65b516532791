import type { Clock } from '../midi/index.js';
import { occurrences, type RollOptions, roll } from '../timing/index.js';
import { chordsOfStrokes, type Struck } from './anticipate.js';
import type { ArrangedNote, ArrangeRemark, Chord, Stroke } from './types.js';

/** How chords are set to a rhythm. */
export interface SetOptions {
  /**
   * Spreads each chord as players do; absent, all its notes are struck at once. The usual deviation is 15 ms: four notes
   * then lie some 31 ms apart at the outside, and pianists' chords were measured at a median of 21 to 39 ms.
   */
  readonly roll?: Pick<RollOptions, 'order'> & { readonly sdMs?: number; readonly seed?: number };
}

/** Chords set to a rhythm. */
export interface ChordsSet {
  /** In order of stroke, then of pitch. */
  readonly notes: readonly ArrangedNote[];
  /** For each stroke its chord. */
  readonly struck: readonly Struck[];
  readonly remarks: readonly ArrangeRemark[];
}

const usualDeviation = 15;
const usualSeed = 1;

/**
 * Sets chords to a rhythm: each stroke strikes the chord of its place (see `chordsOfStrokes`), with the stroke's own
 * place, length and velocity, so that accents and looseness stay as they were played. A note that would still sound when
 * its pitch is struck again ends there, and a chord ends where a stroke strikes another. Linear in the notes.
 *
 * @param strokes in order of tick
 * @param chords in order of tick
 */
export function setChords(
  strokes: readonly Stroke[],
  chords: readonly Chord[],
  clock: Pick<Clock, 'ms' | 'tickAt' | 'ticksPerWhole'>,
  { roll: rolled }: SetOptions = {},
): ChordsSet {
  const remarks = remarksOn(strokes, chords, clock);
  if (strokes.length === 0 || chords.length === 0) return { notes: [], struck: [], remarks };
  const struck = chordsOfStrokes(strokes, chords, clock);
  const limits = endsOfChords(strokes, struck);
  const notes = strokes.flatMap(({ tick, endTick, velocity }, stroke): readonly ArrangedNote[] => {
    const tones = chords[struck[stroke]?.chord ?? 0]?.tones ?? [];
    const end = Math.min(endTick, limits[stroke] ?? endTick);
    const chord = tones.map(({ pitch, part }) => ({ tick, endTick: end, pitch, velocity, part, stroke }));
    return rolled ? spread(chord, strokes, clock, rolled) : chord;
  });
  return { notes: endedByNext(notes), struck, remarks };
}

/** For each stroke the tick of the next that strikes another chord; endless where none does. */
function endsOfChords(strokes: readonly Stroke[], struck: readonly Struck[]): readonly number[] {
  let [chord, limit, beginning] = [-1, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  return strokes
    .map(({ tick }, index) => ({ tick, own: struck[index]?.chord ?? 0 }))
    .toReversed()
    .map(({ tick, own }) => {
      if (own !== chord) limit = beginning;
      [chord, beginning] = [own, tick];
      return limit;
    })
    .toReversed();
}

/** A chord's notes as players strike them; never behind their release. */
function spread(
  chord: readonly ArrangedNote[],
  strokes: readonly Stroke[],
  clock: Pick<Clock, 'ms' | 'tickAt'>,
  { order, sdMs = usualDeviation, seed = usualSeed }: NonNullable<SetOptions['roll']>,
): readonly ArrangedNote[] {
  const [{ stroke, tick: struckAt } = { stroke: 0, tick: 0 }] = chord;
  const at = clock.ms(struckAt);
  const [before, after] = [strokes[stroke - 1], strokes[stroke + 1]];
  const nth = occurrences(chord);
  const keys = chord.map(({ pitch, tick }, index) => {
    return { seed, part: 'set', pitch, position: tick, occurrence: nth[index] ?? 0 };
  });
  const offsets = roll(keys, { order, sdMs });
  return chord.map((note, index) => {
    const rolled = clock.tickAt(at + (offsets[index] ?? 0));
    // Strokes keep their order.
    const tick = Math.min(Math.max(rolled, before?.tick ?? 0), after?.tick ?? Number.POSITIVE_INFINITY);
    return { ...note, tick: Math.min(tick, Math.max(note.tick, note.endTick - 1)) };
  });
}

/** Ends notes where their pitch is struck again in their part. */
function endedByNext(notes: readonly ArrangedNote[]): readonly ArrangedNote[] {
  const next = new Map<string, number>();
  return notes
    .toReversed()
    .map((note) => {
      const key = `${note.part} ${note.pitch}`;
      const limit = next.get(key) ?? Number.POSITIVE_INFINITY;
      next.set(key, note.tick);
      return note.endTick > limit ? { ...note, endTick: Math.max(note.tick, limit) } : note;
    })
    .toReversed();
}

function remarksOn(
  strokes: readonly Stroke[],
  chords: readonly Chord[],
  clock: Pick<Clock, 'ms' | 'ticksPerWhole'>,
): readonly ArrangeRemark[] {
  const [first, last] = [chords[0], chords.at(-1)];
  if (strokes.length === 0) {
    const hint = 'record it on any key, each stroke as long and as loud as the chord is to be';
    return [{ code: 'no-strokes', message: 'the rhythm has no notes', hint }];
  }
  if (!first || !last) {
    const hint = 'give a sketch with notes, or symbols: | Dm | Gm/B♭ C7 | F |';
    return [{ code: 'no-chords', message: 'there are no chords to strike', hint }];
  }
  const quarter = clock.ticksPerWhole === null ? 0 : clock.ticksPerWhole / 4;
  const before = strokes.filter(({ tick }) => tick < first.tick - quarter);
  const behind = strokes.filter(({ tick }) => tick >= last.endTick);
  const remarks: ArrangeRemark[] = [];
  if (before[0])
    remarks.push({
      code: 'stroke-before-chords',
      place: { kind: 'music', tick: before[0].tick },
      message: `${before.length === 1 ? '1 stroke comes' : `${before.length} strokes come`} before the first chord`,
      hint: 'they strike the first chord; let the chords begin where the rhythm does',
    });
  if (behind[0])
    remarks.push({
      code: 'chords-end',
      place: { kind: 'music', tick: behind[0].tick },
      message: `${behind.length === 1 ? '1 stroke comes' : `${behind.length} strokes come`} behind the last chord`,
      hint: 'they strike the last chord; write as many bars of chords as the rhythm has',
    });
  return remarks;
}
