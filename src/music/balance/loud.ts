import { levelOfMark, levelOfVelocity, levelScale, withinMarks } from '../../dynamics/index.js';
import { type ArticulationMap, carryMarks, readMarks, switchKeys } from '../../map/index.js';
import {
  type Clock,
  clockOf,
  controllerEvents,
  keptNotes,
  lastAtMost,
  type Notes,
  noteEnd,
  noteTick,
  onOf,
  type Part,
  pairNotes,
  pitchOf,
  type Song,
  secondData,
  type Track,
  tickOf,
  velocityOf,
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
export function notesOf({ columns }: Track, { part, map }: Voice): Notes {
  const { notes } = pairNotes(columns, part.channel);
  const keys = new Set(map ? switchKeys(map).keys() : []);
  return keys.size === 0 ? notes : keptNotes(notes, (note) => !keys.has(pitchOf(notes, note)));
}

/** How loud notes are at ticks, on the scale of marks: by what makes them loud. */
export interface Loud {
  /** @param note its index among the notes */
  levelAt(note: number, tick: number): number;
  /** Ticks at which it may change. */
  readonly ticks: readonly number[];
}

/** Controllers on which dynamics are played: modulation, breath, expression (MIDI 1.0). */
const usual = [1, 2, 11];

/**
 * What makes notes loud: with a map, what it says of their articulations, and its levels; without one, the controller that
 * moves most, but velocity for notes that are plucked, struck or short, and where no controller moves.
 */
export function loudOf(song: Song, track: Track, voice: Voice, notes: Notes): Loud {
  const { map, articulations, part } = voice;
  const byVelocity = (note: number) => withinMarks(levelOfVelocity(velocityOf(notes, note)));
  if (map) {
    const { dynamics } = map;
    if (!dynamics) return { levelAt: byVelocity, ticks: [] };
    const curve = heldValues(track, part.channel, dynamics.controller);
    const level = levelOfValue(dynamics.levels);
    return {
      ticks: curve.ticks,
      levelAt(note, tick) {
        const articulation = articulations?.get(onOf(notes, note));
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
      const value = short.has(note) ? undefined : most.at(tick);
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
export function heldValues({ columns }: Track, channel: number, controller: number): HeldValues {
  const events = controllerEvents(columns, channel, controller);
  const ticks = events.map((event) => tickOf(columns, event));
  const values = events.map((event) => secondData(columns, event));
  const travel = values.reduce(
    (sum, value, index) => sum + Math.abs(value - (values[index - 1] ?? value)),
    0,
  );
  return { ticks, travel, at: (tick) => values[lastAtMost(ticks, tick)] };
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

/** The notes that are over soon, or are marked as such; their indices. */
function struckNotes(song: Song, track: Track, part: Part, notes: Notes): ReadonlySet<number> {
  const clock: Clock = clockOf(song, part.track);
  const marks = carryMarks(
    Array.from(notes.tick),
    readMarks(song, track, () => false),
    () => false,
  );
  const struck = new Set<number>();
  let next = notes.length;
  for (let note = notes.length - 1; note >= 0; note -= 1) {
    const [tick, end] = [noteTick(notes, note), noteEnd(notes, note)];
    while (next > note + 1 && noteTick(notes, next - 1) > tick) next -= 1;
    const heldMs = clock.ms(end) - clock.ms(tick);
    const restMs = next < notes.length ? clock.ms(noteTick(notes, next)) - clock.ms(end) : Infinity;
    const isShort = heldMs < shortMs && restMs >= silentShare * heldMs;
    if (isShort || struckMarks.some((mark) => marks[note]?.has(mark))) struck.add(note);
  }
  return struck;
}
