// Compares alignments with those that people have checked.
import { readFileSync } from 'node:fs';
import {
  align,
  alignChords,
  chordsOf,
  type Pair,
  refine,
  withOrnamental,
} from '../../../src/score/align/index.js';
import { playScore } from '../../../src/score/index.js';
import { warp } from './dtw.js';
import { readMatch } from './match.js';

/** Pairs that agree with the checked ones, pairs that were made, and pairs that are checked. */
export interface Count {
  readonly right: number;
  readonly made: number;
  readonly checked: number;
}

/** The ways that are compared: in order by pitch; that, refined by its tempo and with ornaments; time warping, refined. */
export interface Ways {
  readonly chordwise: Count;
  readonly refined: Count;
  readonly warped: Count;
}

/** Ticks of a match file are 1/480 of half a second. */
const msOfTick = 500 / 480;

/**
 * Aligns the played notes of a match file with a MusicXML score, and counts. A pair is right where the file gives the
 * played note to the same written note. Which of several passes through a repeat is meant is left out of account where
 * the score's ids do not tell (`n1-2` in the file is `n1` in the score).
 */
export function measure(matchFile: string, scoreFile: string, withWarping: boolean): Ways {
  const { performance, diagnostics } = playScore(new Uint8Array(readFileSync(scoreFile)), scoreFile);
  if (!performance) throw new Error(diagnostics.map(({ message }) => message).join('; '));
  const checked = readMatch(readFileSync(matchFile, 'utf8'));
  const notes = performance.parts.flatMap((part) => part.notes).sort((a, b) => a.tick - b.tick);
  const ids = new Set(notes.map(({ id }) => id));
  const written = notes.map(({ tick, pitch, isGrace, ornament }) => ({
    time: tick,
    pitch,
    isGrace,
    ornament,
  }));
  const order = checked.taken.map((note, index) => ({ ...note, index })).sort((a, b) => a.tick - b.tick);
  const taken = order.map(({ tick, pitch }) => ({ ms: tick * msOfTick, pitch }));
  const idOf = new Map(
    checked.written.flatMap(({ id, taken: note }) =>
      note === null ? [] : [[note, ids.has(id) ? id : id.replace(/-\d+$/u, '')] as const],
    ),
  );
  const count = (pairs: readonly Pair[]): Count => ({
    right: pairs.filter((pair) => idOf.get(order[pair.taken]?.index ?? -1) === notes[pair.written]?.id)
      .length,
    made: pairs.length,
    checked: idOf.size,
  });
  const chords = chordsOf(written);
  return {
    chordwise: count(alignChords(written, chords, taken)),
    refined: count(withOrnamental(written, taken, align(written, taken)).pairs),
    warped: count(withWarping ? refine(written, chords, taken, warp(written, taken)) : []),
  };
}

export function sum(counts: readonly Count[]): Count {
  return counts.reduce(
    (all, one) => ({
      right: all.right + one.right,
      made: all.made + one.made,
      checked: all.checked + one.checked,
    }),
    { right: 0, made: 0, checked: 0 },
  );
}

/** Share of the checked pairs that were found, and of the pairs made that are right. */
export function shares({ right, made, checked }: Count): { readonly found: number; readonly right: number } {
  return { found: right / checked, right: right / made };
}
