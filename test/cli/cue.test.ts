import { existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';
import { bytesOf, trackOf } from '../support/song.js';

const cwd = scratchFolder();
const notes = (pitch: number) => [480, 960, 1440].map((tick) => ({ tick, end: tick + 200, pitch }));
const put = (name: string, content: Uint8Array | string) => {
  writeFileSync(join(cwd, name), content);
  return name;
};
mkdirSync(join(cwd, 'night'));
mkdirSync(join(cwd, 'night/maps'));
put('night/take.mid', bytesOf([trackOf(notes(50), [], 'Horns'), trackOf(notes(60), [], 'Violas')]));
put('night/maps/horns.yaml', readFileSync('maps/saltmarsh-horns.yaml'));
put('night/maps/violas.yaml', readFileSync('maps/lantern-street-strings.yaml'));
const cueYaml = (parts: string, head = 'source: take.mid\noutput: out.mid') =>
  `format: keyslip-cue/1\n${head}\nparts:\n${parts}`;
const horns = '  - {name: Horns, track: Horns, map: maps/horns.yaml}\n';
const violas = '  - {name: Violas, track: Violas, map: maps/violas.yaml}\n';
put('night/night.cue.yaml', cueYaml(horns + violas));
const run = (...words: readonly string[]) => keyslip(words, { cwd });
const bytes = (name: string) => readFileSync(join(cwd, name));

describe('keyslip cue', () => {
  it('compiles the whole piece with one command, from any folder', () => {
    expect(run('cue', 'night/night.cue.yaml', '--prove')).toMatchObject({ status: 0, err: '' });
    const maps = ['--map', 'Horns=maps/horns.yaml', '--map', 'Violas=maps/violas.yaml'];
    const words = ['compile', 'take.mid', ...maps, '-o', 'plain.mid'];
    expect(keyslip(words, { cwd: join(cwd, 'night') }).status).toBe(0);
    expect(bytes('night/out.mid')).toEqual(bytes('night/plain.mid'));
  });

  it('compiles only the parts that are asked for, to where it is asked to', () => {
    expect(run('cue', 'night/night.cue.yaml', '--part', 'Horns', '-o', 'horns.mid').status).toBe(0);
    run('compile', 'night/take.mid', '--map', 'Horns=night/maps/horns.yaml', '-o', 'plain.mid');
    expect(bytes('horns.mid')).toEqual(bytes('plain.mid'));
    const { status, err } = run('cue', 'night/night.cue.yaml', '--part', 'Hrons');
    expect([status, err.trim()]).toEqual([
      2,
      'keyslip: error [command-line]: the cue has no part "Hrons"\n    did you mean "Horns"?',
    ]);
  });

  it('reports as compile does', () => {
    const { out } = run('cue', 'night/night.cue.yaml', '--json', '--report', 'report.json');
    expect(JSON.parse(out)).toMatchObject({
      input: 'night/take.mid',
      output: 'night/out.mid',
      parts: [{ name: 'Horns' }, { name: 'Violas' }],
      diagnostics: [],
    });
    expect(JSON.parse(bytes('report.json').toString())).toMatchObject({
      parts: [{ track: 1 }, { track: 2 }],
    });
    expect(run('cue', 'night/night.cue.yaml', '--quiet')).toMatchObject({ status: 0, out: '', err: '' });
  });

  it('tells every error of every file at once, and writes nothing', () => {
    put('night/bad.yaml', 'format: keyslip-map/1\nlibary: x\n');
    const parts =
      '  - {name: A, track: Horns, map: bad.yaml}\n  - {name: B, track: Violas, map: none.yaml}\n';
    put('night/bad.cue.yaml', cueYaml(parts, 'source: teke.mid\noutput: bad.mid'));
    const { status, err } = run('cue', 'night/bad.cue.yaml');
    expect(status).toBe(1);
    expect(err).toContain('night/teke.mid: error [cannot-read]');
    expect(err).toContain('did you mean "take.mid"?');
    expect(err).toContain('night/bad.yaml:2:1: error [unknown-key]');
    expect(err).toContain('night/none.yaml: error [cannot-read]');
    expect(existsSync(join(cwd, 'night/bad.mid'))).toBe(false);
  });

  it('points into the cue', () => {
    put('night/track.cue.yaml', cueYaml('  - name: A\n    track: Hornss\n    map: maps/horns.yaml\n'));
    const { status, err } = run('cue', 'night/track.cue.yaml');
    expect(status).toBe(1);
    expect(err).toMatch(/^night\/track\.cue\.yaml:6:12: error \[unknown-track\]/mu);
  });

  it('lets warnings count as errors if strict', () => {
    put('night/low.mid', bytesOf([trackOf(notes(12), [], 'Horns')]));
    put('night/low.cue.yaml', cueYaml(horns, 'source: low.mid\noutput: low-out.mid'));
    const { status, err } = run('cue', 'night/low.cue.yaml', '--strict');
    expect([status, err.includes('Nothing was written')]).toEqual([1, true]);
    expect(existsSync(join(cwd, 'night/low-out.mid'))).toBe(false);
    expect(run('cue', 'night/low.cue.yaml').status).toBe(0);
  });
});

describe('the folder of a cue', () => {
  it('is not left through links, neither to read nor to write', () => {
    put('secret.yaml', readFileSync('maps/saltmarsh-horns.yaml'));
    put('other.mid', bytes('night/take.mid'));
    symlinkSync(join(cwd, 'secret.yaml'), join(cwd, 'night/linked.yaml'));
    symlinkSync(cwd, join(cwd, 'night/up'));
    symlinkSync(join(cwd, 'not-there.mid'), join(cwd, 'night/dangling.mid'));
    const outside = (map: string, source: string, output: string) => {
      put(
        'night/links.cue.yaml',
        cueYaml(`  - {name: A, track: Horns, map: ${map}}\n`, `source: ${source}\noutput: ${output}`),
      );
      const { status, err } = run('cue', 'night/links.cue.yaml');
      const places = [...err.matchAll(/:(\d+):\d+: error \[path-outside\]/gu)].map(([, line]) =>
        Number(line),
      );
      return { status, places };
    };
    expect(outside('linked.yaml', 'take.mid', 'links.mid')).toEqual({ status: 1, places: [5] });
    expect(outside('maps/horns.yaml', 'up/other.mid', 'links.mid')).toEqual({ status: 1, places: [2] });
    expect(outside('maps/horns.yaml', 'take.mid', 'up/links.mid')).toEqual({ status: 1, places: [3] });
    expect(outside('maps/horns.yaml', 'take.mid', 'dangling.mid')).toEqual({ status: 1, places: [3] });
    expect(outside('maps/horns.yaml', 'take.mid', 'up/new/links.mid')).toEqual({ status: 1, places: [3] });
    expect([existsSync(join(cwd, 'not-there.mid')), existsSync(join(cwd, 'links.mid'))]).toEqual([
      false,
      false,
    ]);
  });

  it('may have names in it that no file can have', () => {
    symlinkSync('loop', join(cwd, 'night/loop'));
    for (const name of ['"a\\0b.yaml"', `${'x'.repeat(400)}.yaml`, 'loop/a.yaml', 'take.mid/a.yaml']) {
      put('night/names.cue.yaml', cueYaml(`  - {name: A, track: Horns, map: ${name}}\n`));
      const { status, err } = run('cue', 'night/names.cue.yaml');
      expect([name, status, err.includes('[cannot-read]')]).toEqual([name, 1, true]);
    }
  });

  it('may be reached through a link, and have links within it', () => {
    symlinkSync(join(cwd, 'night'), join(cwd, 'alias'));
    symlinkSync('maps/horns.yaml', join(cwd, 'night/inner.yaml'));
    put('night/inner.cue.yaml', cueYaml('  - {name: A, track: Horns, map: inner.yaml}\n'));
    expect(run('cue', 'alias/inner.cue.yaml')).toMatchObject({ status: 0, err: '' });
  });

  it('keeps what the cue is made from', () => {
    for (const [output, code] of [
      ['over.cue.yaml', 'output-not-music'],
      ['maps/horns.yaml', 'output-not-music'],
      ['take.mid', 'output-is-input'],
    ] as const) {
      put('night/over.cue.yaml', cueYaml(horns, `source: take.mid\noutput: ${output}`));
      const before = bytes(`night/${output}`);
      const { status, err } = run('cue', 'night/over.cue.yaml');
      expect([status, err.includes(`over.cue.yaml:3:9: error [${code}]`)]).toEqual([1, true]);
      expect(bytes(`night/${output}`)).toEqual(before);
    }
    expect(run('cue', 'night/night.cue.yaml', '--report', 'night/maps/horns.yaml').status).toBe(2);
  });
});

describe('keyslip check, of cues', () => {
  it('tells cues from maps, and reads all that they name', () => {
    const { status, out, err } = run('check', 'night/night.cue.yaml', 'night/maps/horns.yaml');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toContain('night/night.cue.yaml: in order (2 parts, 0 layers)\n');
    expect(out).toContain('night/maps/horns.yaml: in order (8 articulations');
    const bad = run('check', 'night/track.cue.yaml', 'night/bad.cue.yaml', 'night/over.cue.yaml');
    expect(bad.status).toBe(1);
    for (const code of ['unknown-track', 'cannot-read', 'unknown-key', 'output-is-input'])
      expect(bad.err).toContain(`[${code}]`);
  });
});

describe('keyslip init --cue', () => {
  it('writes a cue in order from the tracks of a recording', () => {
    const names = ['Horns', 'Horns', '"odd": {x}', '', '7'];
    put(
      'night/many.mid',
      bytesOf([trackOf([], [], 'Score'), ...names.map((name) => trackOf(notes(60), [], name))]),
    );
    expect(run('init', '--cue', 'night/many.mid')).toMatchObject({ status: 0, err: '' });
    for (const map of ['horn', 'odd', 'my-library']) run('init', `night/${map}.yaml`);
    expect(run('check', '--strict', 'night/many.cue.yaml')).toMatchObject({
      status: 0,
      err: '',
      out: 'night/many.cue.yaml: in order (5 parts, 0 layers)\n',
    });
    const { out } = run('cue', 'night/many.cue.yaml', '--json');
    expect((JSON.parse(out) as { parts: { track: number }[] }).parts.map(({ track }) => track)).toEqual([
      2, 3, 4, 5, 6,
    ]);
  });

  it('takes a name, writes to standard output, and never over a file', () => {
    expect(run('init', '--cue', 'night/many.mid').status).toBe(2);
    expect(run('init', '--cue', 'night/many.mid', 'top.cue.yaml').status).toBe(0);
    expect(bytes('top.cue.yaml').toString()).toContain('source: "night/many.mid"');
    expect(run('init', '--cue', 'night/many.mid', '-').out).toBe(bytes('top.cue.yaml').toString());
    expect(run('init', '--cue', 'night/many.mid', 'night/maps/x.cue.yaml').status).toBe(2);
    expect(run('init').status).toBe(2);
  });
});

describe('keyslip schema cue', () => {
  it('prints the schema of cues', () => {
    expect(keyslip(['schema', 'cue']).out).toBe(readFileSync(resolve('schemas/cue.schema.json'), 'utf8'));
  });
});
