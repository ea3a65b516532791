import { byArticulation, compileParts, type Job, onsetOf, type Players } from '../compile/index.js';
import { type Diagnostic, diagnostic, quoted } from '../diagnostics/index.js';
import { playersOffset, velocityBy } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';
import { type Line, musicPlace, noteTick, type Onset, type Part, pitchOf, type Song } from '../midi/index.js';
import { dealt, total } from './divide.js';
import type { LevelStep } from './levels.js';
import type { CueDivide, CuePart } from './types.js';

type PlayedNote = Onset['notes'][number];

/** The notes of a divided part: who plays them, and what that does to how loud they are. */
export interface Divided {
  /** Who plays a note; by where and what it was played, so that it may be asked of copies. */
  playersOf(note: Pick<PlayedNote, 'tick' | 'pitch'>): Players;
  /** How much softer a note is than all players together. Unit: dB. */
  offsetOf(note: Pick<PlayedNote, 'tick' | 'pitch'>): number;
  /** Velocities of the notes that are loud by velocity, from those that they would have. */
  velocityOf(before: Job['velocityOf']): NonNullable<Job['velocityOf']>;
  /** The level of the part from tick to tick, for the notes that are loud by a controller. */
  readonly steps: readonly LevelStep[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Deals the notes of each chord to the players of a part. A note of n of N players is 10 · log10(n/N) dB softer than all:
 * players are incoherent sources, whose powers add (acoustics, common knowledge).
 *
 * A note that is loud by velocity gets that as velocity, by the law of volume (40 · log10). A controller is one for all
 * notes of its channel: what is loud by it, or whose velocity picks the recording, is turned down together, by the mean
 * power of its chord's notes, from where the chord is struck in the output until the next onset. Warning: few-players.
 */
export function dividedPart(
  song: Song,
  part: Part,
  map: ArticulationMap,
  { name, timing }: CuePart,
  divide: CueDivide,
): Divided {
  const { parts } = compileParts(song, [{ part, map, ...(timing ? { timing } : {}) }]);
  const of = total(divide.players);
  const players = new Map<string, number>();
  const steps: LevelStep[] = [];
  const atOnset = new Map<number, number>();
  const few: Onset[] = [];
  for (const { line, decided, retimed } of parts) {
    for (const onset of line.onsets) few.push(...shareOut(onset, divide, of, players));
    const byOnset: number[][] = line.onsets.map(() => []);
    for (let row = 0; row < decided.length; row++) byOnset[onsetOf(decided, row)]?.push(row);
    const place = (row: number) => ({ tick: noteTick(decided, row), pitch: pitchOf(decided, row) });
    const isLoudByVelocity = byArticulation(decided, (name) => isByVelocity(map, name));
    for (const rows of byOnset) {
      const controlled = rows.filter((row) => !isLoudByVelocity(row));
      const powers = controlled.map((row) => (players.get(keyOf(place(row))) ?? of) / of);
      const mean = powers.reduce((sum, power) => sum + power, 0) / powers.length;
      const by = powers.length === 0 ? 0 : 10 * Math.log10(mean);
      const ticks = rows.map((row) => noteTick(retimed.decided, row));
      for (const row of rows) atOnset.set(noteTick(decided, row), by);
      if (by !== (steps.at(-1)?.by ?? 0)) steps.push({ tick: Math.min(...ticks), by });
    }
  }
  const offsetOf: Divided['offsetOf'] = (note) => playersOffset(players.get(keyOf(note)) ?? of, of);
  return {
    playersOf: (note) => ({ playing: players.get(keyOf(note)) ?? of, of }),
    offsetOf,
    velocityOf: (before) => (decision) => {
      const { note, articulation } = decision;
      const velocity = before?.(decision);
      if (!isByVelocity(map, articulation)) return velocity;
      const by = offsetOf(note) - (atOnset.get(note.tick) ?? 0);
      return by === 0 ? velocity : velocityBy(velocity ?? note.velocity, by);
    },
    steps,
    diagnostics: tooFew(parts[0]?.line, few, quoted(name), of),
  };
}

/** Whether velocity alone makes the notes of an articulation loud; not where it picks the recording. */
function isByVelocity({ articulations }: ArticulationMap, name: string): boolean {
  const articulation = articulations.get(name);
  return articulation?.loudness === 'velocity' && articulation.velocity === undefined;
}

/** Deals the notes of an onset; a pitch that is struck twice is one note. The onset, where it has more notes than players. */
function shareOut(
  onset: Onset,
  divide: CueDivide,
  of: number,
  players: Map<string, number>,
): readonly Onset[] {
  const pitches = [...new Set(onset.notes.map(({ pitch }) => pitch))].sort((a, b) => b - a);
  const counts = dealt(pitches.length, divide);
  for (const note of onset.notes) players.set(keyOf(note), counts[pitches.indexOf(note.pitch)] ?? of);
  return total(counts) > of ? [onset] : [];
}

function keyOf({ tick, pitch }: Pick<PlayedNote, 'tick' | 'pitch'>): string {
  return `${tick} ${pitch}`;
}

function tooFew(line: Line | undefined, few: readonly Onset[], name: string, of: number): Diagnostic[] {
  const [first] = few;
  if (!line || !first) return [];
  const others = few.length === 1 ? '' : ` (so have ${few.length - 1} more)`;
  return [
    diagnostic(
      'few-players',
      musicPlace(line, first.tick),
      `a chord of ${name} has ${first.notes.length} notes${others}, more than its desks have players (${of})`,
      'each note is reckoned with one player; give the desks more, or the chord fewer notes',
    ),
  ];
}
