import { className, type Harmony, pitchName } from '../harmony/index.js';
import type { Inspection } from './inspection.js';

/** A line of the table: where, chord, degree, bass, altered degrees. */
type Row = readonly [at: string, chord: string, degree: string, bass: string, altered: string];

const headings: Row = ['bar.beat', 'chord', 'degree', 'bass', 'altered'];
const nothing = '–';

/**
 * Harmony as a table for a terminal, one line for each that differs from the one before; the key stands above the lines
 * that are in it. Without bars, ticks stand in their place.
 */
export function harmonyText(harmony: readonly Harmony[]): string {
  if (harmony.length === 0) return '';
  const told = harmony.filter((here, index) => !isSame(harmony[index - 1], here));
  const rows = told.map(rowOf);
  const widths = headings.map((heading, column) =>
    rows.reduce((width, row) => Math.max(width, (row[column] ?? '').length), heading.length),
  );
  const line = (row: Row) =>
    `  ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd();
  const lines = rows.flatMap((row, index) => {
    const key = told[index]?.key.name;
    return key === told[index - 1]?.key.name ? [line(row)] : [`  in ${key}:`, line(row)];
  });
  return ['Harmony:', line(headings), ...lines].join('\n');
}

function rowOf(here: Harmony): Row {
  const { bar, beat, tick, chord, degree, bass, altered } = here;
  return [
    bar === null || beat === null ? `tick ${tick}` : `${bar}.${formatBeat(beat)}`,
    chord?.name ?? nothing,
    degree ?? nothing,
    pitchName(bass, here),
    altered.join(' '),
  ];
}

/** A beat with its half: "2½"; finer places are told as the beat, or the half, behind which they lie. */
function formatBeat(beat: number): string {
  return `${Math.floor(beat)}${beat % 1 >= 0.5 ? '½' : ''}`;
}

/** Whether a stretch goes on with what sounded before it. */
function isSame(before: Harmony | undefined, here: Harmony): boolean {
  return (
    before !== undefined &&
    before.endTick === here.tick &&
    before.key.name === here.key.name &&
    rowOf(before).slice(1).join('\n') === rowOf(here).slice(1).join('\n')
  );
}

/** A stretch as plain JSON; notes are spelled in their key, pitches with 60 as C4. */
export interface HarmonyJson {
  readonly bar: number | null;
  readonly beat: number | null;
  readonly tick: number;
  readonly endTick: number;
  readonly pitchClasses: readonly string[];
  readonly bass: string;
  readonly chord: string | null;
  readonly root: string | null;
  readonly inversion: number | null;
  readonly key: string;
  readonly degree: string | null;
  readonly altered: readonly string[];
}

export function harmonyJson(harmony: readonly Harmony[]): readonly HarmonyJson[] {
  return harmony.map((here) => {
    const { bar, beat, tick, endTick, pitchClasses, bass, chord, key, degree, altered } = here;
    return {
      bar,
      beat,
      tick,
      endTick,
      pitchClasses: pitchClasses.map((pitchClass) => className(pitchClass, here)),
      bass: pitchName(bass, here),
      chord: chord?.name ?? null,
      root: chord && className(chord.root, here),
      inversion: chord?.inversion ?? null,
      key: key.name,
      degree,
      altered,
    };
  });
}

/** The chord wherever it changes, its bass, its degree in the key, and what the key does not have. */
export const harmony: Inspection<readonly Harmony[]> = {
  name: 'harmony',
  look: (music) => music.harmony,
  text: harmonyText,
  json: harmonyJson,
  // Chords stand above the staves of a sheet.
  remarks: () => [],
};
