import { probedLibrary, probePlan } from '../../src/sound/measure/index.js';
import { bounceOf } from '../sound/measure/synthetic.js';
import { readWhole } from './map.js';
import { bytesOf, trackOf } from './song.js';

/** A small map of an invented library without rules. */
export const reedsSketch = `format: keyslip-map/1
library: Slow Bell Reeds
instrument: Reed
family: woodwind
note-60: C4
range: [C2, C6]
articulations:
  long: {switch: {note: C0}}
  brief: {switch: {note: D0}}
`;

/** The same with rules. */
export const reeds = `${reedsSketch}rules:\n  - when: {held: {below: 150ms}}\n    use: brief\n  - use: long\n`;

/** The same with one articulation, so that its probe is short. */
export const oneReed = `${reedsSketch.slice(0, reedsSketch.indexOf('  brief'))}rules:\n  - use: long\n`;

/** 200 notes of many lengths, from which the rules can be learned once they are switched. */
export function longTake(): Uint8Array {
  const notes = Array.from({ length: 200 }, (_, at) => {
    const tick = 960 * (at + 1);
    return { tick, end: tick + ((at * 7919) % 13) * 40 + 50, pitch: 48 + (at % 24) };
  });
  return bytesOf([trackOf(notes, [], 'Reed')]);
}

/** The bounce of the probe of the map with one articulation, as a WAV file. */
export function bounceOfOneReed(): Uint8Array {
  const plan = probePlan(probedLibrary(readWhole(oneReed)), { quick: true });
  return bounceOf(plan, () => ({ delay: 0.04, rise: 0.002, seat: 0, gain: 0.1 }));
}
