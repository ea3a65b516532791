import { readMap } from '../../../src/map/read/index.js';

const head =
  'format: keyslip-map/1\nlibrary: L\ninstrument: I\nfamily: other\nnote-60: C4\nrange: [C2, C8]\n';

/** What is said of a map with a usual head, in the order of the file: `code: message`. */
export function diagnosed(yaml: string): readonly string[] {
  return diagnosedWhole((/^range:/mu.test(yaml) ? head.replace(/^range:.*\n/mu, '') : head) + yaml);
}

function diagnosedWhole(yaml: string): readonly string[] {
  return readMap(new TextEncoder().encode(yaml), 'test.yaml').diagnostics.map(
    ({ code, message }) => `${code}: ${message}`,
  );
}
