import { quoted } from '../diagnostics/index.js';
import type { Clock, Position } from '../midi/index.js';
import { UsageError } from './io.js';

/** A stretch of bars; without beats the bars are meant whole. */
export interface At {
  readonly from: { readonly bar: number; readonly beat: number | undefined };
  readonly to: { readonly bar: number; readonly beat: number | undefined };
}

/** Reads `BAR[.BEAT][..BAR[.BEAT]]`, all counted from 1. */
export function parseAt(text: string): At {
  const match = /^(\d{1,6})(?:\.(\d{1,3}))?(?:\.\.(\d{1,6})(?:\.(\d{1,3}))?)?$/u.exec(text);
  const [, bar, beat, lastBar, lastBeat] = match ?? [];
  const from = { bar: Number(bar), beat: optionalNumber(beat) };
  const to = lastBar === undefined ? from : { bar: Number(lastBar), beat: optionalNumber(lastBeat) };
  const isForward = to.bar > from.bar || (to.bar === from.bar && (to.beat ?? Infinity) >= (from.beat ?? 1));
  if (!match || from.bar < 1 || from.beat === 0 || to.beat === 0 || !isForward)
    throw new UsageError(
      `--at ${quoted(text)} is no place: write a bar (12), a bar and beat (12.3), or a stretch (12..16)`,
    );
  return { from, to };
}

function optionalNumber(text: string | undefined): number | undefined {
  return text === undefined ? undefined : Number(text);
}

/** Whether places lie within a stretch, both ends inclusive. */
export function placesWithin({ from, to }: At, clock: Clock): (place: Position | null) => boolean {
  if (clock.position(0) === null)
    throw new UsageError('--at needs bars, and this file counts SMPTE frames instead');
  return (position) => {
    if (!position) return false;
    const { bar, beat } = position;
    const begun = bar > from.bar || (bar === from.bar && beat >= (from.beat ?? 1));
    return begun && (bar < to.bar || (bar === to.bar && beat <= (to.beat ?? Infinity)));
  };
}
