import { decibels, exactVelocityOfLevel, levelOfVelocity } from '../../dynamics/index.js';
import {
  beatAt,
  type Clock,
  clockOf,
  type Notes,
  noteEnd,
  noteTick,
  onOf,
  pitchOf,
  type Song,
} from '../../midi/index.js';
import { dynamicsController, heldValues, loudOf, notesOf, type Voice } from './loud.js';

/** What a voice sounds in a bar: sums over its notes, each weighted by the time that it sounds there. */
export interface VoiceBar {
  /** Unit: ticks. */
  readonly time: number;
  /** Power by how loud it is played, times time: 1 is a note at velocity 127. */
  readonly played: number;
  /** The same with the volume and expression of its channel. */
  readonly heard: number;
  /** Pitch times time. */
  readonly pitch: number;
}

interface Sums {
  time: number;
  played: number;
  heard: number;
  pitch: number;
}

/** A note that drags by less than this over a bar line is not heard in the bar behind it. Unit: ms. */
const dragging = 100;

/** A note that is never released in a file of weeks is reckoned with in so many bars, ten hours at a common tempo. */
export const mostBars = 20_000;

/** Volume and expression (General MIDI); the one that dynamics are played on counts as those. */
const mixers = [7, 11];

/**
 * The sounding energy of a voice by bars: a held note counts in each bar that it sounds in, a note that was played early in
 * the bar that it belongs to. Empty for files without bars.
 */
export function energyByBar(song: Song, voice: Voice): ReadonlyMap<number, VoiceBar> {
  const { part } = voice;
  const bars = new Map<number, Sums>();
  const track = voice.track ?? song.tracks[part.track - 1];
  if (!track) return bars;
  const clock = clockOf(song, part.track);
  const notes = notesOf(track, voice);
  const loud = loudOf(song, track, voice, notes);
  const dynamics = dynamicsController(track, voice);
  const mix = mixers
    .filter((number) => number !== dynamics)
    .map((number) => heldValues(track, part.channel, number));
  const gain = (tick: number) => mix.reduce((sum, curve) => sum + decibels(curve.at(tick) ?? 127), 0);
  const changes = [...new Set([...loud.ticks, ...mix.flatMap(({ ticks }) => ticks)])].sort((a, b) => a - b);
  for (let note = 0; note < notes.length; note++) {
    const shared = sharedBy(voice, onOf(notes, note));
    const pitch = pitchOf(notes, note);
    for (const { bar, from, to } of barsOf(notes, note, clock)) {
      const sums = bars.get(bar) ?? { time: 0, played: 0, heard: 0, pitch: 0 };
      bars.set(bar, sums);
      for (const [start, end] of stretches(from, to, changes))
        add(sums, { pitch, level: loud.levelAt(note, start), start, end, gain, ...shared });
    }
  }
  return bars;
}

/** What a note adds from one tick to another. */
interface Addend {
  readonly pitch: number;
  /** How loud it is, on the scale of marks. */
  readonly level: number;
  readonly start: number;
  readonly end: number;
  readonly gain: (tick: number) => number;
  /** The share of the players that plays the note, 0–1. */
  readonly share: number;
  /** Whether its velocity says that already. */
  readonly isSofter: boolean;
}

function add(sums: Sums, { pitch, level, start, end, gain, share, isSofter }: Addend): void {
  const time = end - start;
  const power = 10 ** (decibels(exactVelocityOfLevel(level)) / 10);
  sums.time += time * share;
  sums.played += time * power * (isSofter ? 1 : share);
  sums.heard += time * power * 10 ** (gain(start) / 10);
  sums.pitch += time * share * pitch;
}

/**
 * What share of a divided part plays a note. Few players play no softer, but are fewer: so that a chord which is dealt to
 * all is as loud as one note of all, each of its notes counts for its share of time.
 */
function sharedBy(
  { shares, map, articulations }: Voice,
  onIndex: number,
): Pick<Addend, 'share' | 'isSofter'> {
  const share = shares?.get(onIndex) ?? 1;
  const articulation = map?.articulations.get(articulations?.get(onIndex) ?? '');
  return { share, isSofter: articulation?.loudness === 'velocity' && articulation.velocity === undefined };
}

/** The level that a power has on the scale of marks. */
export function levelOfPower(power: number): number {
  return levelOfVelocity(127 * 10 ** ((10 * Math.log10(power)) / 40));
}

/** The bars in which a note sounds, and from where to where it counts there. */
function barsOf(
  notes: Notes,
  note: number,
  clock: Clock,
): readonly { readonly bar: number; readonly from: number; readonly to: number }[] {
  const tick = noteTick(notes, note);
  const first = beatAt(clock, tick)?.bar;
  if (first === undefined) return [];
  const end = Math.max(tick + 1, noteEnd(notes, note));
  const found: { bar: number; from: number; to: number }[] = [];
  let from = tick;
  for (let bar = first; from < end && bar < first + mostBars; bar += 1) {
    const next = clock.barStart(bar + 1) ?? end;
    const to = Math.max(from + 1, Math.min(end, next));
    const isDragged = bar > first && clock.ms(to) - clock.ms(from) < dragging;
    if (!isDragged) found.push({ bar, from, to });
    from = Math.max(to, next);
  }
  return found;
}

/** A stretch of time, cut at changes within it. */
function* stretches(
  from: number,
  to: number,
  changes: readonly number[],
): Generator<readonly [start: number, end: number]> {
  let low = 0;
  let high = changes.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((changes[middle] ?? 0) <= from) low = middle + 1;
    else high = middle;
  }
  let start = from;
  for (let at = low; (changes[at] ?? to) < to; at += 1) {
    yield [start, changes[at] ?? to];
    start = changes[at] ?? to;
  }
  yield [start, to];
}
