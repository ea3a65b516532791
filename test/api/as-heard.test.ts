import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile, prove } from '../../src/api/index.js';

const read = (name: string) => readFileSync(new URL(`../cases/piece/${name}`, import.meta.url));
const take = read('take.mid');

describe('a compensated file without its recording', () => {
  it.each([
    ['Horns', 'tallow-horns'],
    ['Violins 2', 'ferrow-violins-2'],
    ['Piano', 'piano'],
  ])('is decided where its notes are heard, as the recording was: %s', (track, file) => {
    const maps = { map: read(`maps/${file}.yaml`).toString('utf8'), track };
    const timing = { compensate: true, joins: true };
    const { bytes = new Uint8Array(), notes } = compile(take, { maps, timing });
    const proof = prove(bytes, { maps });
    expect(proof.violations).toEqual([]);
    expect(proof.parts.map((part) => part.notes)).toEqual(notes.map((part) => part.notes.length));
    expect(prove(bytes, { maps, against: take }).isProved).toBe(true);
    const { bytes: bare = new Uint8Array() } = compile(take, { maps, timing, bare: true });
    expect(prove(bare, { maps, against: take }).isProved).toBe(false);
    expect(prove(bare, { maps, against: take, timing }).isProved).toBe(true);
  });

  it('is found wrong all the same where a switch is: one key is another', () => {
    const maps = { map: read('maps/tallow-horns.yaml').toString('utf8'), track: 'Horns' };
    const { bytes = new Uint8Array() } = compile(take, { maps, timing: { compensate: true } });
    // A switch key of legato, D1 (26), struck at velocity 64 on channel 4; in its place D sharp.
    const at = Buffer.from(bytes).indexOf(Uint8Array.of(0x93, 26, 64));
    expect(at).toBeGreaterThan(0);
    const wrong = bytes.slice();
    wrong[at + 1] = 27;
    expect(prove(wrong, { maps }).isProved).toBe(false);
  });
});
