import type { Place } from '../diagnostics/index.js';
import type { Clock } from './clock/index.js';

/** Where a tick is looked up: a file, a track of it, and the clock that it runs by. */
export interface MusicLocation {
  readonly file: string;
  readonly part: { readonly track: number; readonly trackName: string };
  readonly clock: Clock;
}

/** The place of a tick in a track of a song. */
export function musicPlace({ file, part, clock }: MusicLocation, tick: number): Place {
  const position = clock.position(tick);
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
