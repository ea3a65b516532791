import { readMap } from '../../src/map/read/index.js';
import type { ArticulationMap } from '../../src/map/types.js';

const head = `format: keyslip-map/1
library: Test Library
instrument: Test Instrument
family: other
note-60: C4
`;

/** A map with a usual head (note-60: C4), from the rest of its YAML. Throws where it has errors. */
export function mapOf(yaml: string): ArticulationMap {
  return readWhole(`${head}${/^range:/mu.test(yaml) ? '' : 'range: [C2, C8]\n'}${yaml}`);
}

/** A map from its whole YAML. Throws where it has errors. */
export function readWhole(yaml: string): ArticulationMap {
  const { value, diagnostics } = readMap(new TextEncoder().encode(yaml), 'test.yaml');
  const errors = diagnostics.filter(({ severity }) => severity === 'error');
  if (!value || errors.length > 0)
    throw new Error(errors.map(({ code, message }) => `${code}: ${message}`).join('\n'));
  return value;
}

/** The four-step ladder of the trade: the shorter the note, the shorter the recording. */
export const ladderMap = `
articulations:
  short: {switch: {note: C0}}
  medium: {switch: {note: D0}}
  long: {switch: {note: E0}}
  joined: {switch: {note: F0}}
rules:
  - when: {overlaps-next: true}
    use: joined
  - when: {held: {below: 130ms}}
    use: short
  - when: {held: {from: 130ms, below: 320ms}}
    use: medium
  - use: long
`;
