import { levelOfMark, levelOfVelocity, levelScale, withinMarks } from '../../dynamics/index.js';
import { type ArticulationMap, carryMarks, readMarks, switchKeys } from '../../map/index.js';
import {
  type Clock,
  clockOf,
  type PairedNote,
  type Part,
  pairedNotes,
  type Song,
  type Track,
} from '../../midi/index.js';

/** A library, or a recording without one, that plays notes of a section. */
export interface Voice {
  readonly part: Part;
  /** Absent where it is not known what plays the part. */
  readonly map?: ArticulationMap;
  /** With a map: the articulations of its notes, by the indices of their note-ons. */
  readonly articulations?: ReadonlyMap<number, string>;
  /** Its track, where its notes stand elsewhere than in the song (they were retimed). */
  readonly track?: Track;
  /** Of a divided part: what share of its players plays each note, 0–1, by the indices of their note-ons. */
  readonly shares?: ReadonlyMap<number, number>;
  /** How many players were recorded; as many as the section has, if absent. */
  readonly players?: number;
  /** What of its channel's level brings a measured library to others. Unit: dB. */
  readonly broughtBy?: number;
}

/** The notes of a voice; the switch keys of its map are none. */
export function notesOf(track: Track, { part, map }: Voice): readonly PairedNote[] {
  const { notes } = pairedNotes(track, part.channel);
  const keys = new Set(map ? switchKeys(map).keys() : []);
  return keys.size === 0 ? notes : notes.filter(({ pitch }) => !keys.has(pitch));
}

/** How loud notes are at ticks, on the scale of marks: by what makes them loud. */
export interface Loud {
  levelAt(note: PairedNote, tick: number): number;
  /** Ticks at which it may change. */
  readonly ticks: readonly number[];
}

/** Controllers on which dynamics are played: modulation, breath, expression (MIDI 1.0). */
const usual = [1, 2, 11];

/**
 * What makes notes loud: with a map, what it says of their articulations, and its levels; without one, the controller that
 * moves most, but velocity for notes that are plucked, struck or short, and where no controller moves.
 */
export function loudOf(song: Song, track: Track, voice: Voice, notes: readonly PairedNote[]): Loud {
  const { map, articulations, part } = voice;
  const byVelocity = ({ velocity }: PairedNote) => withinMarks(levelOfVelocity(velocity));
  if (map) {
    const { dynamics } = map;
    if (!dynamics) return { levelAt: byVelocity, ticks: [] };
    const curve = heldValues(track, part.channel, dynamics.controller);
    const level = levelOfValue(dynamics.levels);
    return {
      ticks: curve.ticks,
      levelAt(note, tick) {
        const articulation = articulations?.get(note.onIndex);
        const isControlled = map.articulations.get(articulation ?? '')?.loudness === 'controller';
        const value = isControlled ? curve.at(tick) : undefined;
        return value === undefined ? byVelocity(note) : level(value);
      },
    };
  }
  const most = playedOn(track, part.channel)?.curve;
  if (!most) return { levelAt: byVelocity, ticks: [] };
  const short = struckNotes(song, track, part, notes);
  return {
    ticks: most.ticks,
    levelAt(note, tick) {
      const value = short.has(note.onIndex) ? undefined : most.at(tick);
      return value === undefined ? byVelocity(note) : withinMarks(levelOfVelocity(value));
    },
  };
}

/** The controller that a voice's loudness is played on: it is no level of the mix. */
export function dynamicsController(track: Track, { map, part }: Voice): number | undefined {
  if (map) return map.dynamics?.controller;
  return playedOn(track, part.channel)?.number;
}

/** The controller that moves most; where none moves, one that was recorded more than once. */
function playedOn(track: Track, channel: number) {
  const [most] = usual
    .map((number) => ({ number, curve: heldValues(track, channel, number) }))
    .filter(({ curve }) => curve.ticks.length > 1)
    .sort((a, b) => b.curve.travel - a.curve.travel);
  return most;
}

/** The values of a controller, held from event to event. */
export interface HeldValues {
  readonly ticks: readonly number[];
  /** Its ways up and down, added. */
  readonly travel: number;
  /** Before its first event: undefined. */
  at(tick: number): number | undefined;
}

/** What a controller of a channel stands at. */
export function heldValues(track: Track, channel: number, controller: number): HeldValues {
  const ticks: number[] = [];
  const values: number[] = [];
  let travel = 0;
  track.events.forEach((event, index) => {
    if (event.type !== 'controller' || event.channel !== channel || event.controllerType !== controller)
      return;
    travel += Math.abs(event.value - (values.at(-1) ?? event.value));
    ticks.push(track.ticks[index] ?? 0);
    values.push(event.value);
  });
  return {
    ticks,
    travel,
    at(tick) {
      let [low, high] = [0, ticks.length];
      while (low < high) {
        const middle = (low + high) >>> 1;
        if ((ticks[middle] ?? 0) <= tick) low = middle + 1;
        else high = middle;
      }
      return values[low - 1];
    },
  };
}

/** The level that a library's value sounds like: the inverse of its levels, from its softest mark to its loudest. */
function levelOfValue(levels: ReadonlyMap<string, number>): (value: number) => number {
  const scale = levelScale(levels);
  const marks = [...levels.keys()].flatMap((mark) => levelOfMark(mark) ?? []);
  const [softest, loudest] = [Math.min(...marks), Math.max(...marks)];
  return (value) => {
    let [low, high] = [softest, loudest];
    for (let step = 0; step < 20; step += 1) {
      const middle = (low + high) / 2;
      if (scale(middle) < value) low = middle;
      else high = middle;
    }
    return high;
  };
}

/** Marks of sounds that do not last. */
const struckMarks = ['pizz.', 'snap-pizzicato', 'staccato', 'staccatissimo', 'spiccato'];

/** Own figures, no source: shorter notes with half their length of silence behind them are over before a wheel is heard. */
const shortMs = 250;
const silentShare = 0.5;

function struckNotes(
  song: Song,
  track: Track,
  part: Part,
  notes: readonly PairedNote[],
): ReadonlySet<number> {
  const clock: Clock = clockOf(song, part.track);
  const inOrder = [...notes].sort((a, b) => a.tick - b.tick);
  const marks = carryMarks(
    inOrder.map(({ tick }) => tick),
    readMarks(song, track, () => false),
    () => false,
  );
  const struck = new Set<number>();
  let next = inOrder.length;
  for (let index = inOrder.length - 1; index >= 0; index -= 1) {
    const note = inOrder[index];
    if (!note) continue;
    while (next > index + 1 && (inOrder[next - 1]?.tick ?? 0) > note.tick) next -= 1;
    const after = inOrder[next];
    const heldMs = clock.ms(note.endTick) - clock.ms(note.tick);
    const restMs = after ? clock.ms(after.tick) - clock.ms(note.endTick) : Infinity;
    const isShort = heldMs < shortMs && restMs >= silentShare * heldMs;
    if (isShort || struckMarks.some((mark) => marks[index]?.has(mark))) struck.add(note.onIndex);
  }
  return struck;
}
