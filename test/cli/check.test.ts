import { readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';

const cwd = scratchFolder();
const maps = readdirSync('maps')
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => `maps/${name}`);

describe('keyslip check', () => {
  it('finds every map of this project in order, without a warning', () => {
    const { status, err, out } = keyslip(['check', '--strict', ...maps]);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out.trim().split('\n')).toHaveLength(maps.length);
  });

  it('runs the examples', () => {
    const map = readFileSync('maps/tidewater-oboe.yaml', 'utf8').replace(
      'expect: [trill]',
      'expect: [plain]',
    );
    writeFileSync(join(cwd, 'wrong.yaml'), map);
    const { status, err } = keyslip(['check', 'wrong.yaml'], { cwd });
    expect(status).toBe(1);
    expect(err).toMatch(/^wrong\.yaml:\d+:\d+: error \[example-failed\]/mu);
  });

  it('goes through all files, and is status 1 where one has an error', () => {
    writeFileSync(join(cwd, 'broken.yaml'), 'format: [');
    writeFileSync(join(cwd, 'good.yaml'), readFileSync('maps/tidewater-oboe.yaml'));
    const { status, out, err } = keyslip(['check', 'broken.yaml', 'good.yaml'], { cwd });
    expect([status, out.includes('good.yaml'), err.includes('[yaml-syntax]')]).toEqual([1, true, true]);
    const json: unknown = JSON.parse(keyslip(['check', '--json', 'broken.yaml', 'good.yaml'], { cwd }).out);
    expect(json).toMatchObject({
      files: [
        { file: 'broken.yaml', ok: false },
        { file: 'good.yaml', ok: true, diagnostics: [] },
      ],
    });
  });
});

describe('maps on a base', () => {
  it('are printed whole with --merged, and what is printed is in order', () => {
    const { status, out, err } = keyslip(['check', '--merged', 'maps/slate-quay-bassoons.yaml']);
    expect([status, err]).toEqual([0, '']);
    expect(out).not.toContain('base:');
    writeFileSync(join(cwd, 'merged.yaml'), out);
    expect(keyslip(['check', '--strict', 'merged.yaml'], { cwd })).toMatchObject({ status: 0, err: '' });
  });

  it('compile like any map, and name the file in which a fault stands', () => {
    const base = readFileSync('maps/shared/slate-quay.yaml', 'utf8');
    writeFileSync(join(cwd, 'base.yaml'), base);
    const map = readFileSync('maps/slate-quay-flutes.yaml', 'utf8').replace('shared/slate-quay', 'base');
    writeFileSync(join(cwd, 'flutes.yaml'), map);
    const song = join(process.cwd(), 'maps/demo/last-boat.mid');
    const explain = () => keyslip(['explain', song, '--map', 'flutes.yaml'], { cwd });
    expect(explain()).toMatchObject({ status: 0 });
    expect(explain().out).toContain('base.yaml:');
    writeFileSync(join(cwd, 'base.yaml'), base.replace('use: joined', 'use: joind'));
    expect(explain().err).toMatch(/^base\.yaml:\d+:\d+: error \[unknown-articulation\]/mu);
    symlinkSync(join(process.cwd(), 'maps/shared/slate-quay.yaml'), join(cwd, 'link.yaml'));
    writeFileSync(join(cwd, 'flutes.yaml'), map.replace('base.yaml', 'link.yaml'));
    expect(explain().err).toMatch(/^flutes\.yaml:\d+:7: error \[path-outside\]/mu);
  });
});

describe('keyslip init', () => {
  it('writes a map that is in order, and never over a file', () => {
    expect(keyslip(['init', 'mine.yaml'], { cwd }).status).toBe(0);
    expect(keyslip(['check', '--strict', 'mine.yaml'], { cwd })).toMatchObject({ status: 0, err: '' });
    expect(keyslip(['init', 'mine.yaml'], { cwd }).status).toBe(2);
    expect(keyslip(['init', '-'], { cwd }).out).toBe(readFileSync(join(cwd, 'mine.yaml'), 'utf8'));
  });
});

describe('keyslip schema', () => {
  it('prints the schema', () => {
    expect(keyslip(['schema']).out).toBe(readFileSync('schemas/map.schema.json', 'utf8'));
  });
});
