import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { some } from '../support/draws.js';
import { YamlServer } from '../support/yaml-server.js';

// What an editor shows, from yaml-language-server: the program that editors ask, which knows nothing of keyslip.
const folder = scratchFolder();
const server = new YamlServer();
const map = join(folder, 'mine.yaml');

beforeAll(async () => {
  expect(keyslip(['init', 'mine.yaml'], { cwd: folder }).status).toBe(0);
  cpSync('maps/demo/last-boat.mid', join(folder, 'take.mid'));
  expect(keyslip(['init', '--cue', 'take.mid'], { cwd: folder }).status).toBe(0);
  await server.start();
});
afterAll(() => server.stop());

/** What is found in a map that is otherwise as `init` writes it. */
async function foundIn(name: string, from: string | RegExp, to: string): Promise<readonly string[]> {
  const text = readFileSync(map, 'utf8').replace(from, to);
  const found = await server.open(join(folder, name), text);
  return found.map(({ message }) => message);
}

describe('in an editor', () => {
  it('a map and a cue that init wrote are in order, in any folder', async () => {
    expect(await server.open(map)).toEqual([]);
    expect(await server.open(join(folder, 'take.cue.yaml'))).toEqual([]);
  });

  it('keys and values are completed', async () => {
    const file = join(folder, 'begun.yaml');
    const text = '# yaml-language-server: $schema=map.schema.json\nfamily: \nswitching:\n  \n';
    await server.open(file, text);
    expect(await server.complete(file, { line: 1, character: 8 })).toContain('woodwind');
    const keys = await server.complete(file, { line: 3, character: 2 });
    expect(keys).toEqual(expect.arrayContaining(['notes', 'lead', 'tap', 'velocity', 'restate']));
  });

  it('keys are explained', async () => {
    await server.open(map);
    const line = readFileSync(map, 'utf8')
      .split('\n')
      .findIndex((one) => one.startsWith('  lead:'));
    expect(await server.hover(map, { line, character: 4 })).toContain(
      'How long before its note a switch is sent',
    );
  });

  it('what is wrong is said in a sentence, with what would be right', async () => {
    expect(await foundIn('time.yaml', 'lead: 20ms', 'lead: 20 msec')).toEqual([
      'Write a length of time: a number with ms or s (25ms, 0.5s), or a fraction of a whole note (1/16).',
    ]);
    expect(await foundIn('pitch.yaml', '[G3, E7]', '[H3, E7]')).toEqual([
      "Write a note as the library's manual spells it (C3, F#4, Bb2), or a MIDI note from 0 to 127.",
    ]);
    expect(await foundIn('share.yaml', 'steadiness: 15%', 'steadiness: 15 percent')).toEqual([
      'Write a share from 0% to 100%, with the sign: 15%.',
    ]);
    expect(await foundIn('key.yaml', 'loudness: velocity', 'loudnes: velocity')).toEqual([
      'Property loudnes is not allowed.',
    ]);
    expect(await foundIn('none.yaml', /^range:.*$/mu, '')).toEqual(['Missing property "range".']);
  });

  it('maps and cues of this repository are in order; a base, which is no map by itself, lacks what check says', async () => {
    const base = 'shared/slate-quay.yaml';
    const all = readdirSync('maps', { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.yaml'),
    );
    const files = [base, ...some(all.filter((name) => name !== base))];
    const wrong: string[] = [];
    for (const name of files)
      for (const { message } of await server.open(join(process.cwd(), 'maps', name)))
        wrong.push(`${name}: ${message}`);
    expect(all.length).toBeGreaterThan(15);
    expect(wrong).toEqual([
      'shared/slate-quay.yaml: Missing property "instrument".',
      'shared/slate-quay.yaml: Missing property "range".',
    ]);
  });

  it('nothing is fetched from elsewhere', () => {
    expect(server.fetched).toEqual([]);
  });
});

describe('the schema that init writes', () => {
  const init = (name: string) => keyslip(['init', name], { cwd: folder });
  const path = join(folder, 'map.schema.json');
  const ofProgram = () => keyslip(['schema']).out;

  it('is what the schema command prints, and stays where it is there', () => {
    expect(readFileSync(path, 'utf8')).toBe(ofProgram());
    expect(readFileSync(join(folder, 'cue.schema.json'), 'utf8')).toBe(keyslip(['schema', 'cue']).out);
    expect(init('second.yaml')).toMatchObject({ status: 0, err: '' });
  });

  it('takes the place of another version of itself', () => {
    writeFileSync(path, ofProgram().replace('"title"', '"title_before"'));
    expect(init('third.yaml').status).toBe(0);
    expect(readFileSync(path, 'utf8')).toBe(ofProgram());
  });

  it('never takes the place of anything else; then nothing is written', () => {
    writeFileSync(path, '{"title": "mine"}');
    const { status, err } = init('fourth.yaml');
    expect({ status, err }).toEqual({
      status: 2,
      err: 'keyslip: error [command-line]: map.schema.json, where the schema goes, is another file: move it, or write to another folder\n',
    });
    expect(readFileSync(path, 'utf8')).toBe('{"title": "mine"}');
    expect(readdirSync(folder)).not.toContain('fourth.yaml');
    expect(init('map.schema.json').status).toBe(2);
  });
});
