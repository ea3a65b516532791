import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../src/api/proof.js';
import { compileCue } from '../../src/cue/index.js';
import { readCue } from '../../src/cue/read/index.js';
import { readMap } from '../../src/map/read/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { keyslip } from '../support/cli.js';
import { demoScore } from './score.js';

const folder = 'maps/demo';
const read = (path: string) => new Uint8Array(readFileSync(join(folder, path)));

describe('the demo cue', () => {
  const libraries = readdirSync(join(folder, 'libraries')).map((name) => `libraries/${name}`);
  const { value: cue } = readCue(read('skerry-point.cue.yaml'), 'skerry-point.cue.yaml');
  const { value: song } = readMidi(read('skerry-point.mid'), 'skerry-point.mid');
  const maps = new Map(libraries.flatMap((path) => [[path, readMap(read(path), path).value] as const]));

  it('has a source that is what its score says', () => {
    expect(read('skerry-point.mid')).toEqual(demoScore());
  });

  it('is in order, and so are its libraries, without a warning', () => {
    const files = ['skerry-point.cue.yaml', ...libraries].map((path) => join(folder, path));
    expect(keyslip(['check', '--strict', ...files])).toMatchObject({ status: 0, err: '' });
  });

  it('shows all that a cue can: layers, and every source of dynamics', () => {
    expect(cue?.parts.map(({ dynamics }) => dynamics?.source)).toEqual([
      'keep',
      'marks',
      'shape',
      'shape',
      undefined,
    ]);
    expect(cue?.parts.flatMap(({ layers }) => layers.map(({ name }) => name))).toEqual(['bite']);
    expect([...maps.keys()].sort()).toEqual([...libraries].sort());
  });

  it('is proved on every track, without a warning', () => {
    const known = new Map([...maps].flatMap(([path, map]) => (map ? [[path, map] as const] : [])));
    const { value, diagnostics } = cue && song ? compileCue(cue, { song, maps: known }) : { diagnostics: [] };
    expect(diagnostics).toEqual([]);
    const heard = value && readMidi(value.bytes, 'out.mid').value;
    const proof = value && heard && proofOf(heard, value.planned.song, value, true);
    expect(proof?.violations).toEqual([]);
    expect(proof?.parts.map(({ trackName }) => trackName).sort()).toEqual([
      'Drums',
      'Horns',
      'Horns – bite',
      'Trumpets',
      'Violins div. 1',
      'Violins div. 2',
    ]);
  });
});
