import { type Diagnostic, diagnostic, type Place } from '../diagnostics/index.js';
import { defaultShare, type PanLaw, type Placing, panLaw, place } from '../dynamics/index.js';
import type { ArticulationMap } from '../map/index.js';

/** The controller that was measured where a map says how its library answers. */
const pan = 10;

/** What the seat's controller does to a library's recordings. */
export function lawOf(map: ArticulationMap, controller: number): PanLaw {
  return panLaw(controller === pan ? map.pan : undefined);
}

/** Puts a library's recording to its seat; `share` is how much of the way. */
export function seated(
  map: ArticulationMap,
  wanted: number,
  controller: number,
  share: number = defaultShare,
): Placing {
  return place({ seat: map.seat ?? 0, width: map.width ?? 0 }, wanted, share, lawOf(map, controller));
}

/**
 * far-seat: the recording would have to be moved by more than half the stage. seat-unreached: its library does not follow
 * the controller so far.
 */
export function seatWarnings(
  name: string,
  at: Place,
  { isFar, asked, unreached, heard }: Placing,
): readonly Diagnostic[] {
  return [
    ...(isFar ? [farSeat(name, at, asked)] : []),
    ...(unreached === undefined ? [] : [short(name, at, unreached, heard)]),
  ];
}

function farSeat(name: string, at: Place, asked: number): Diagnostic {
  return diagnostic(
    'far-seat',
    at,
    `${name} would have to be moved by ${Math.abs(Math.round(asked * 50))}% of the stage from where its library recorded it`,
    'its room goes along and will sound odd; another seat, or another library, would serve better',
  );
}

function short(name: string, at: Place, unreached: number, heard: number): Diagnostic {
  return diagnostic(
    'seat-unreached',
    at,
    `${name} is heard at ${heard.toFixed(2)} instead of ${unreached.toFixed(2)}: controller ${pan} does not move its library further`,
    'a seat nearer to where it was recorded, or the mixer, brings it to its place',
  );
}
