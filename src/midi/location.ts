import type { Place } from '../diagnostics/index.js';
import { beatAt, type Clock } from './clock/index.js';

/** Where a tick is looked up: a file, a track of it, and the clock that it runs by. */
export interface MusicLocation {
  readonly file: string;
  readonly part: { readonly track: number; readonly trackName: string };
  readonly clock: Clock;
}

/** The place of a tick in a track of a song: the beat that it belongs to, and the tick itself. */
export function musicPlace({ file, part, clock }: MusicLocation, tick: number): Place {
  const position = beatAt(clock, tick);
  return {
    kind: 'music',
    file,
    track: part.track,
    trackName: part.trackName,
    bar: position?.bar ?? null,
    beat: position?.beat ?? null,
    tick,
  };
}
