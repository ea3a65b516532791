import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
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
