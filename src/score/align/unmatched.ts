import type { Performance, PlayedNote, PlayedPart } from '../play/index.js';
import { barIndexAt, type Found, type LostMark } from './edits.js';
import type { Alignment, TakenNote } from './notes.js';
import type { WrongNote } from './wrong.js';

/** A note, or a mark, that score and take do not share. Bars are those printed in the score. */
export type Unmatched = { readonly bar: string; readonly pass: number; readonly part: string } & (
  | { readonly kind: 'missing'; readonly pitch: number }
  /** No note of the bar was played: a repeat that was not made, as a rule. */
  | { readonly kind: 'bar' }
  | { readonly kind: 'extra'; readonly pitch: number; readonly track: number; readonly tick: number }
  | {
      readonly kind: 'wrong';
      readonly pitch: number;
      readonly played: number;
      readonly track: number;
      readonly tick: number;
    }
  | { readonly kind: 'mark'; readonly text: string }
);

/** A note of the score, with its part. */
export interface Written {
  readonly note: PlayedNote;
  readonly part: PlayedPart;
}

/** A note of the take, with its track (from 1) and tick. */
export interface Taken extends TakenNote {
  readonly track: number;
  readonly tick: number;
}

interface Result {
  readonly written: readonly Written[];
  readonly taken: readonly Taken[];
  readonly alignment: Alignment;
  readonly wrong: readonly WrongNote[];
  readonly matched: readonly Found[];
  readonly performance: Performance;
}

/** All that score and take do not share. Of a bar that was not played at all, only that. */
export function listUnmatched(result: Result, lost: readonly LostMark[]): readonly Unmatched[] {
  const { written, alignment, wrong, performance } = result;
  const heard = new Set([...alignment.pairs, ...wrong].map((pair) => written[pair.written]?.note.bar));
  const where = (part: string, bar: number) => {
    const { number, pass } = performance.bars[bar] ?? { number: '', pass: 1 };
    return { bar: number, pass, part };
  };
  const silent = new Set(
    alignment.missing.map((index) => written[index]?.note.bar ?? 0).filter((bar) => !heard.has(bar)),
  );
  const parts = [...new Set(written.map(({ part }) => part.name))].join(', ');
  const bars = [...silent].map((bar): Unmatched => ({ ...where(parts, bar), kind: 'bar' }));
  const marks = lost.flatMap(({ text, part, scoreTick }): Unmatched[] => {
    const bar = barIndexAt(performance, scoreTick);
    return silent.has(bar) ? [] : [{ ...where(part.name, bar), kind: 'mark', text }];
  });
  return [...bars, ...unplayed(result, silent, where), ...added(result, where), ...marks];
}

type Where = (
  part: string,
  bar: number,
) => { readonly bar: string; readonly pass: number; readonly part: string };

/** Notes that were not played, or others in their place. */
function unplayed(
  { written, taken, alignment, wrong }: Result,
  silent: ReadonlySet<number>,
  where: Where,
): readonly Unmatched[] {
  const swapped = new Map(wrong.map((one) => [one.written, one.taken]));
  return alignment.missing.flatMap((index): Unmatched[] => {
    const one = written[index];
    if (!one || silent.has(one.note.bar)) return [];
    const other = taken[swapped.get(index) ?? -1];
    const here = { ...where(one.part.name, one.note.bar), pitch: one.note.pitch };
    if (!other) return [{ ...here, kind: 'missing' }];
    return [{ ...here, kind: 'wrong', played: other.pitch, track: other.track, tick: other.tick }];
  });
}

/** Notes too many. Each belongs to the bar of the last note found before it. */
function added(
  { taken, alignment, wrong, matched, performance }: Result,
  where: Where,
): readonly Unmatched[] {
  const used = new Set(wrong.map((one) => one.taken));
  const byTake = [...matched].sort((a, b) => a.takeTick - b.takeTick);
  return alignment.extra.flatMap((index): Unmatched[] => {
    const one = taken[index];
    if (!one || used.has(index)) return [];
    const before = byTake.findLast(({ takeTick }) => takeTick <= one.tick) ?? byTake[0];
    const here = where(before?.part.name ?? '', barIndexAt(performance, before?.scoreTick ?? 0));
    return [{ ...here, kind: 'extra', pitch: one.pitch, track: one.track, tick: one.tick }];
  });
}
