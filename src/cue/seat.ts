import { type Diagnostic, diagnostic, type Place } from '../diagnostics/index.js';
import { defaultShare, type Placing, place } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';

/** Puts a library's recording to its seat; `share` is how much of the way. */
export function seated(map: ArticulationMap, wanted: number, share: number = defaultShare): Placing {
  return place({ seat: map.seat ?? 0, width: map.width ?? 0 }, wanted, share);
}

/** far-seat: the recording would have to be moved by more than half the stage. */
export function farSeat(name: string, at: Place, { isFar, asked }: Placing): readonly Diagnostic[] {
  if (!isFar) return [];
  return [
    diagnostic(
      'far-seat',
      at,
      `${name} would have to be moved by ${Math.abs(Math.round(asked * 50))}% of the stage from where its library recorded it`,
      'its room goes along and will sound odd; another seat, or another library, would serve better',
    ),
  ];
}
