import { describe, expect, it } from 'vitest';
import { readMap } from '../../../src/map/read/index.js';

const text = `format: keyslip-map/1
library: Old Quay
instrument: Horns
family: brass
note-60: C4
range: [C3, C5]
hysteresis: 12%
articulations:
  open: {switch: [{note: C0}, {note: D0, group: mute}]}
  muted: {switch: {note: E0, group: mute}}
rules:
  - use: open
`;
const read = (yaml: string) => readMap(new TextEncoder().encode(yaml), 'old.yaml');

describe('words that the format had before', () => {
  it('are read as those that it has now, each with a warning at its place', () => {
    const { value, diagnostics } = read(text);
    expect(value?.steadiness).toBeCloseTo(0.12, 10);
    expect(value?.articulations.get('muted')?.switch).toMatchObject([{ aspect: 'mute' }]);
    const old = diagnostics.filter(({ code }) => code === 'old-word');
    expect(old).toHaveLength(3);
    expect(old[0]).toMatchObject({
      severity: 'warning',
      place: { line: 7, column: 1 },
      message: '"hysteresis" is called steadiness now',
    });
  });

  it('are unknown keys beside the new ones', () => {
    const { diagnostics } = read(text.replace('hysteresis', 'steadiness: 10%\nhysteresis'));
    expect(diagnostics.map(({ code }) => code)).toContain('unknown-key');
  });
});
