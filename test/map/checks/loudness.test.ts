import { describe, expect, it } from 'vitest';
import { readMap } from '../../../src/map/index.js';

const map = (articulations: string, more = '') => `format: keyslip-map/1
library: Cold Harbour Brass
instrument: Horns
family: brass
note-60: C4
range: [C2, C5]
articulations:
${articulations}
rules:
  - use: long
${more}`;
const found = (yaml: string) =>
  readMap(new TextEncoder().encode(yaml), 'horns.yaml').diagnostics.map(
    ({ code, severity, message, place }) => [code, severity, 'line' in place ? place.line : 0, message],
  );
const long = '  long: {switch: {note: C0}, loudness: controller}';
const dynamics = 'dynamics: {controller: 1, levels: {p: 40, f: 100}}\n';

// Common practice of the trade, no source.
describe('how loud an articulation is', () => {
  it('is told where it follows a controller that is not named: no-dynamics', () => {
    expect(found(map(long))).toEqual([
      [
        'no-dynamics',
        'warning',
        8,
        expect.stringContaining('the loudness of "long" comes from a controller'),
      ],
    ]);
    expect(found(map(`${long}\n  soft: {switch: {note: D0}, loudness: controller}`))[0]?.[3]).toContain(
      'and 1 more',
    );
    expect(found(map(long, dynamics))).toEqual([]);
    expect(found(map('  long: {switch: {note: C0}}'))).toEqual([]);
  });

  it('is told where it is said to be a velocity that picks the recording: loudness-confined', () => {
    const picked = '  long: {velocity: {into: [1, 40]}';
    expect(found(map(`${picked}, loudness: velocity}`))).toEqual([
      ['loudness-confined', 'warning', 8, expect.stringContaining('pick its recording, 1 to 40')],
    ]);
    expect(found(map(`${picked}, loudness: controller}`, dynamics))).toEqual([]);
    // What is not written contradicts nothing.
    expect(found(map(`${picked}}`))).toEqual([]);
  });
});
