// A part of a song becomes the same part with its switches: analyse, decide, look for conflicts, retime, switch.

import { type Diagnostic, isError, type Outcome } from '../diagnostics/index.js';
import type { ArticulationMap } from '../map/index.js';
import {
  type Duration,
  type MeasuredNote,
  type Part,
  type Song,
  type Track,
  type TrackChange,
  trackOf,
  withSecondData,
  writeMidi,
} from '../midi/index.js';
import { asPlayed, type Move, type TimingOptions } from '../timing/index.js';
import { analyse, type MeasuredLine } from './analyse/index.js';
import { collisions, sharedChannels, sharedKeys } from './conflicts/index.js';
import { type Decided, type DecidedNotes, type Decision, decide } from './decide/index.js';
import { retime } from './retime/index.js';
import { type PlacedSwitches, placeSwitches, weave } from './switching/index.js';

export { analyse, type MeasuredLine, partsOf } from './analyse/index.js';
export {
  articulationOf,
  byArticulation,
  type Decided,
  type DecidedNotes,
  type Decision,
  decide,
  decisionsOf,
  onsetOf,
  reason,
} from './decide/index.js';
export { decideExample, runExamples } from './examples.js';
export { ornamented } from './ornaments.js';
export { placesOf } from './places.js';
export { bindSpeaksAfter, withPreroll } from './retime/index.js';
export { type Stored, type TakenOut, takeStored, withStored } from './stored.js';
export type { SentNote } from './switching/index.js';

/** How many players of a divided part play a note, and how many there are. */
export interface Players {
  readonly playing: number;
  readonly of: number;
}

/** One part, the map of the library that plays it, and what is done with its timing (nothing, if absent). */
export interface Job {
  readonly part: Part;
  readonly map: ArticulationMap;
  readonly timing?: TimingOptions;
  /** The velocity, 1–127, that a note is to have once it is decided; as it was played where this is undefined. */
  readonly velocityOf?: (decision: Decision) => number | undefined;
  /** Who plays a note of a part that is divided; it is told, and nothing is done with it. */
  readonly playersOf?: (note: MeasuredNote) => Players;
  /** How long after its onset a compensated note is to be heard, with another library that speaks late; at it, if absent. */
  readonly heardAfter?: (note: MeasuredNote) => Duration;
  /** Marks in the music that are read elsewhere, so that they are no mistakes here. */
  readonly readsMark?: (name: string) => boolean;
}

/** A part with everything that was decided and done. */
export interface CompiledPart extends Job {
  /** As it was played; the decisions were made on this. */
  readonly line: MeasuredLine;
  readonly decided: Decided;
  /** The same rows, with notes where they stand now, and what each was moved by. */
  readonly retimed: {
    readonly decided: DecidedNotes;
    readonly moves: readonly (Move | undefined)[];
  };
  readonly switched: PlacedSwitches;
}

export interface Compiled {
  /** The finished Standard MIDI File. */
  readonly bytes: Uint8Array;
  readonly parts: readonly CompiledPart[];
  /** The tracks of the parts, by number, with their notes where they stand now and no switches yet. */
  readonly tracks: ReadonlyMap<number, Track>;
}

/** Parts with everything that was found on the way. Errors among the diagnostics would make an output wrong. */
export interface CompiledParts {
  readonly parts: readonly CompiledPart[];
  /** The tracks of the parts, by number, with their notes where they stand now and no switches yet. */
  readonly tracks: ReadonlyMap<number, Track>;
  readonly diagnostics: readonly Diagnostic[];
}

interface DecidedPart extends Job {
  readonly line: MeasuredLine;
  readonly decided: Decided;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Is told how many parts were begun, what is done now with the last of them, and how much of that is done (0–1, where it
 * is long).
 */
export type OnPart = (begun: number, doing: string, share?: number) => void;

/** Analyses, decides, retimes and switches each part, without writing. */
export function compileParts(song: Song, jobs: readonly Job[], onPart: OnPart = () => {}): CompiledParts {
  const decided = jobs.flatMap((job, index) => {
    return decidePart(song, job, (doing, share) => onPart(index + 1, doing, share));
  });
  const diagnostics = decided.flatMap((part) => part.diagnostics);
  const tracks = new Map<number, Track>();
  const parts = new Map<DecidedPart, CompiledPart>();
  for (const track of song.tracks) {
    const ofTrack = decided.filter(({ part }) => part.track === track.number);
    if (ofTrack.length === 0) continue;
    diagnostics.push(...sharedChannels(ofTrack));
    const tell = (doing: string) =>
      onPart(jobs.findIndex(({ part }) => part === ofTrack[0]?.part) + 1, doing);
    tell('moving');
    const done = retimeTrack(track, ofTrack);
    const now = withVelocities(done.track, ofTrack, done.parts);
    tracks.set(track.number, now);
    diagnostics.push(...done.diagnostics);
    tell('switching');
    ofTrack.forEach((one, index) => {
      const { part, map, timing, playersOf, line, decided } = one;
      const retimed = done.parts[index] ?? { decided, moves: [] };
      const switched = placeSwitches(now.columns, line.clock, part, retimed.decided, map);
      diagnostics.push(...sharedKeys(line, retimed.decided, map, switched.sent, switched.shared));
      const asked = { ...(timing ? { timing } : {}), ...(playersOf ? { playersOf } : {}) };
      parts.set(one, {
        part,
        map,
        ...asked,
        line,
        decided,
        retimed,
        switched,
      });
    });
  }
  return { parts: decided.flatMap((one) => parts.get(one) ?? []), tracks, diagnostics };
}

function decidePart(
  song: Song,
  job: Job,
  tell: (doing: string, share?: number) => void,
): readonly DecidedPart[] {
  const track = song.tracks[job.part.track - 1];
  if (!track) return [];
  tell('measuring');
  const { line, diagnostics: warnings } = analyse(song, job.part, job.map, job.readsMark);
  const { decided, diagnostics: conflicts } = decide(line, job.map, (share) => tell('deciding', share));
  tell('looking for collisions');
  const found = collisions(track.columns, line, decided, job.map);
  return [{ ...job, line, decided, diagnostics: [...warnings, ...conflicts, ...found] }];
}

function retimeTrack(track: Track, parts: readonly DecidedPart[]): ReturnType<typeof retime> {
  if (parts.every(({ timing }) => timing === undefined))
    return { track, parts: parts.map(({ decided }) => ({ decided, moves: [] })), diagnostics: [] };
  return retime(
    track,
    parts.map(({ line, decided, map, timing, heardAfter }) => ({
      line,
      decided,
      map,
      options: timing ?? asPlayed,
      ...(heardAfter ? { heardAfter } : {}),
    })),
  );
}

/** A track whose notes have the velocities that their parts ask for. */
function withVelocities(
  track: Track,
  parts: readonly DecidedPart[],
  retimed: readonly { readonly decided: DecidedNotes }[],
): Track {
  const velocities = new Map<number, number>();
  parts.forEach(({ decided, velocityOf }, at) => {
    if (!velocityOf) return;
    for (let row = 0; row < decided.length; row++) {
      const onIndex = retimed[at]?.decided.on[row];
      const velocity = velocityOf(decided.decision(row));
      if (onIndex !== undefined && velocity !== undefined) velocities.set(onIndex, velocity);
    }
  });
  if (velocities.size === 0) return track;
  return trackOf(track.number, track.name, withSecondData(track.columns, velocities));
}

/**
 * Compiles parts of a song: the same file with the right switches before each note. Errors leave the value out.
 *
 * @param original the song as it stands in the file, where `song` is that song moved (by a preroll): then every track
 *   is written anew
 */
export function compile(
  song: Song,
  jobs: readonly Job[],
  original: Song = song,
  onPart?: OnPart,
): Outcome<Compiled> {
  const { parts, tracks, diagnostics } = compileParts(song, jobs, onPart);
  if (diagnostics.some(isError)) return { value: undefined, diagnostics };
  const moved =
    song === original ? [] : song.tracks.map(({ number, columns }) => [number, { events: columns }] as const);
  const changed = new Map<number, TrackChange>([...moved, ...wovenTracks(tracks, parts)]);
  onPart?.(jobs.length, 'writing');
  const written = writeMidi(song, changed);
  return {
    value: written.value && { bytes: written.value, parts, tracks },
    diagnostics: [...diagnostics, ...written.diagnostics],
  };
}

function wovenTracks(
  tracks: ReadonlyMap<number, Track>,
  parts: readonly CompiledPart[],
): ReadonlyMap<number, TrackChange> {
  const woven = new Map<number, TrackChange>();
  for (const [number, track] of tracks) {
    const ofTrack = parts.filter(({ part }) => part.track === number);
    woven.set(
      number,
      weave(
        track.columns,
        ofTrack.map(({ switched }) => switched),
      ),
    );
  }
  return woven;
}
