import { describe, expect, it } from 'vitest';
import { readMap } from '../../../src/map/index.js';

const bytes = (text: string) => new TextEncoder().encode(text);

const base = `format: keyslip-map/1
library: Cold Harbour Brass
instrument: Horns
family: brass
note-60: C4
range: [C2, C5]
articulations:
  short: {switch: {note: C0}}
  long: {switch: {note: D0}}
rules:
  - when: {held: {below: 130ms}}
    use: short
  - use: long
examples:
  - notes: [{pitch: C3, held: 90ms}, {pitch: C4, held: 400ms}]
    expect: [short, long]
`;

// Common practice, no source: a horn's map lent to trumpets shows notes below the trumpet.
describe('examples with notes that the instrument does not have', () => {
  it('are told at the example, in the map that has it: example-out-of-range', () => {
    const own = base.replace('range: [C2, C5]', 'range: [D3, C5]');
    expect(readMap(bytes(own), 'horns.yaml').diagnostics).toMatchObject([
      { code: 'example-out-of-range', severity: 'warning', place: { file: 'horns.yaml', line: 15 } },
    ]);
    expect(readMap(bytes(base), 'horns.yaml').diagnostics).toEqual([]);
  });

  it('are told in the base for the map to which they are lent, with its name', () => {
    const member = 'format: keyslip-map/1\nbase: horns.yaml\ninstrument: Trumpets\nrange: [E3, C6]\n';
    const bases = { folder: '', texts: new Map([['horns.yaml', bytes(base)]]) };
    const { diagnostics } = readMap(bytes(member), 'trumpets.yaml', { bases });
    expect(diagnostics).toMatchObject([
      { code: 'example-out-of-range', place: { file: 'horns.yaml', line: 15 } },
    ]);
    expect(diagnostics[0]?.message).toContain('the note C3, outside the range E3 to C6');
    expect(diagnostics[0]?.message).toContain('"trumpets.yaml"');
  });
});
