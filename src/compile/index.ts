import { collisions } from '../collide/index.js';
import { decide } from '../decide/index.js';
import type { Decision } from '../model/decision.js';
import type { Diagnostic, Outcome } from '../model/diagnostic.js';
import type { Line, Part } from '../model/line.js';
import type { ArticulationMap } from '../model/map.js';
import type { MidiEvent, Song } from '../model/song.js';
import { type Realised, realise, weave } from '../realise/index.js';
import { understand } from '../understand/index.js';
import { writeMidi } from '../write/index.js';

/** One part and the map of the library that plays it. */
export interface Job {
  readonly part: Part;
  readonly map: ArticulationMap;
}

/** A part with its decisions; what can be told before anything is written. */
export interface DecidedPart extends Job {
  readonly line: Line;
  readonly decisions: readonly Decision[];
}

/** A part as it was realised. */
export interface CompiledPart extends DecidedPart {
  readonly realised: Realised;
}

export interface Compiled {
  /** The finished Standard MIDI File. */
  readonly bytes: Uint8Array;
  readonly parts: readonly CompiledPart[];
}

/** Parts with everything that was found on the way. Errors among the diagnostics would make an output wrong. */
export interface RealisedParts {
  readonly parts: readonly CompiledPart[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Understands, decides and realises each part, without writing. */
export function realiseParts(song: Song, jobs: readonly Job[]): RealisedParts {
  const done = jobs.flatMap((job) => realisePart(song, job));
  return { parts: done.map(({ part }) => part), diagnostics: done.flatMap(({ diagnostics }) => diagnostics) };
}

function realisePart(
  song: Song,
  { part, map }: Job,
): { readonly part: CompiledPart; readonly diagnostics: readonly Diagnostic[] }[] {
  const track = song.tracks[part.track - 1];
  if (!track) return [];
  const { line, diagnostics: warnings } = understand(song, part, map);
  const decided = decide(line, map);
  const found = collisions(track, line, decided.decisions, map);
  const realised = realise(track, line.clock, part, decided.decisions, map);
  return [
    {
      part: { part, map, line, decisions: decided.decisions, realised },
      diagnostics: [...warnings, ...decided.diagnostics, ...found],
    },
  ];
}

/** Compiles parts of a song: the same file with the right switches before each note. Errors leave the value out. */
export function compile(song: Song, jobs: readonly Job[]): Outcome<Compiled> {
  const { parts, diagnostics } = realiseParts(song, jobs);
  if (diagnostics.some(({ severity }) => severity === 'error')) return { value: undefined, diagnostics };
  return { value: { bytes: writeMidi(song, wovenTracks(song, parts)), parts }, diagnostics };
}

function wovenTracks(song: Song, parts: readonly CompiledPart[]): ReadonlyMap<number, readonly MidiEvent[]> {
  const woven = new Map<number, readonly MidiEvent[]>();
  for (const track of song.tracks) {
    const ofTrack = parts.filter(({ part }) => part.track === track.number);
    if (ofTrack.length === 0) continue;
    const insertions = ofTrack.flatMap(({ realised }) => realised.insertions);
    const channels = new Map(ofTrack.flatMap(({ realised }) => [...realised.channels]));
    woven.set(track.number, weave(track, insertions, channels));
  }
  return woven;
}
