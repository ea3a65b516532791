import type { Clock } from '../../midi/index.js';
import type { SoundingNote } from '../harmony/index.js';
import { pitchesOfKey, sweep } from './sounding.js';
import type { VoicedPitch, VoicedSpan } from './types.js';

/**
 * What sounds together for less than this is the overlap of notes that follow each other, or a chord on its way: no
 * sonority. Unit: ms. Own choice; players spread chords over some 30 ms, and joined notes overlap by about as much.
 */
const shortest = 80;

/**
 * Sonorities that sound for at least this share of the longest count as equally long, and the first of them is taken:
 * played notes of equal length differ by so much. Own choice.
 */
const equallyLong = 0.8;

/** One set of pitches within a stretch. */
interface Tally {
  readonly key: string;
  ms: number;
  /** The longest time without a change, and its tick. */
  unchanged: number;
  tick: number;
}

/**
 * The set of pitches that sounds longest in each stretch, of those that are a voicing: three pitches or more, or two
 * that are octaves, fifths or fourths apart. Undefined where there is none. Chords that are rolled, or released one
 * note after another, count for what they are while all of it sounds.
 *
 * @param stretches rising, none over another
 */
export function sonorities(
  notes: readonly SoundingNote[],
  stretches: readonly VoicedSpan[],
  clock: Clock,
): readonly (readonly VoicedPitch[] | undefined)[] {
  const chosen = longest(notes, stretches, clock);
  const found: (readonly VoicedPitch[] | undefined)[] = stretches.map(() => undefined);
  const cuts = chosen.flatMap((tally) => tally?.tick ?? []);
  let next = 0;
  sweep(notes, cuts, (tick, endTick, sounding) => {
    for (; next < chosen.length; next++) {
      const tally = chosen[next];
      if (tally && tally.tick >= endTick) return;
      if (tally && tally.tick >= tick)
        found[next] = pitchesOfKey(tally.key).map((pitch) => {
          return { pitch, parts: [...sounding.partsAt(pitch).keys()].sort((a, b) => a - b) };
        });
    }
  });
  return found;
}

function longest(notes: readonly SoundingNote[], stretches: readonly VoicedSpan[], clock: Clock) {
  const chosen: (Tally | undefined)[] = stretches.map(() => undefined);
  let tallies = new Map<string, Tally>();
  let current = 0;
  const close = () => {
    chosen[current] = longestOf([...tallies.values()]);
    tallies = new Map();
    current += 1;
  };
  const cuts = stretches.flatMap(({ tick, endTick }) => [tick, endTick]);
  sweep(notes, cuts, (tick, endTick, sounding) => {
    while (tick >= (stretches[current]?.endTick ?? Number.POSITIVE_INFINITY)) close();
    if (tick < (stretches[current]?.tick ?? Number.POSITIVE_INFINITY)) return;
    const key = sounding.key();
    const known = tallies.get(key);
    const ms = clock.ms(endTick) - clock.ms(tick);
    if (!known) {
      tallies.set(key, { key, ms, unchanged: ms, tick });
      return;
    }
    known.ms += ms;
    if (ms <= known.unchanged) return;
    known.unchanged = ms;
    known.tick = tick;
  });
  if (current < stretches.length) close();
  return chosen;
}

function longestOf(tallies: readonly Tally[]): Tally | undefined {
  const able = tallies.filter(({ key, ms }) => ms >= shortest && isVoicing(pitchesOfKey(key)));
  const most = able.reduce((ms, tally) => Math.max(ms, tally.ms), 0);
  return able.find(({ ms }) => ms >= equallyLong * most);
}

function isVoicing([low, high, ...more]: readonly number[]): boolean {
  if (low === undefined || high === undefined) return false;
  return more.length > 0 || [0, 5, 7].includes((high - low) % 12);
}
