import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { probedLibrary, probePlan } from '../../src/sound/measure/index.js';
import { bounceOf } from '../sound/measure/synthetic.js';
import { keyslip, scratchFolder } from '../support/cli.js';
import { readWhole } from '../support/map.js';

const cwd = scratchFolder();
const run = (...words: readonly string[]) => keyslip(words, { cwd });
const text = `format: keyslip-map/1   # invented
library: Slow Bell Reeds
instrument: Reed
family: woodwind
note-60: C4
range: [C3, C5]
articulations:
  long:   # the usual one
    means: tenuto
    switch: {note: C0}
    loudness: controller
  brief: {switch: {note: D0}}
rules:
  - when: {held: {below: 150ms}}
    use: brief
  - use: long
dynamics: {controller: 1, levels: {p: 40, mf: 70, f: 100}}
`;
writeFileSync(join(cwd, 'reeds.yaml'), text);
const plan = probePlan(probedLibrary(readWhole(text)), { quick: true });
writeFileSync(
  join(cwd, 'bounce.wav'),
  bounceOf(plan, ({ articulation, value, notes: [note], pan }) => ({
    delay: articulation === 'long' ? 0.08 : 0.01,
    rise: 0.002,
    seat: (pan - 64) / 189,
    gain:
      0.2 * 10 ** ((30 * ((articulation === 'long' ? (value ?? 0) : (note?.velocity ?? 0)) / 127 - 1)) / 20),
    ...(articulation === 'brief' ? { decay: 0.08 } : {}),
  })),
);

describe('keyslip probe', () => {
  it('writes the probe and its clicks, says how long it is, and warns of its loudness', () => {
    const { status, out, err } = run('probe', 'reeds.yaml', '-o', 'p.mid', '--quick');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/\d+ notes, \d:\d\d minutes/u);
    expect(out).toContain('headphones');
    expect(parseMidi(readFileSync(join(cwd, 'p.mid'))).tracks).toHaveLength(1);
    const click = readFileSync(join(cwd, 'p-click.wav'));
    expect(click.subarray(0, 4).toString()).toBe('RIFF');
    // 16 bits, mono, 48 kHz: as long as the plan.
    expect(Math.round((click.length - 44) / 96_000)).toBe(Math.round(plan.seconds));
  });

  it('is longer with --room, and tells JSON the same', () => {
    const json = (...more: readonly string[]) =>
      JSON.parse(run('probe', 'reeds.yaml', '-o', 'q.mid', '--quick', '--json', ...more).out);
    expect(json().seconds).toBeCloseTo(plan.seconds, 6);
    expect(json('--room').seconds).toBeGreaterThan(plan.seconds + 19);
  });

  it('refuses to write over the map, or nowhere', () => {
    expect(run('probe', 'reeds.yaml').status).toBe(2);
    expect(run('probe', 'reeds.yaml', '-o', 'reeds.yaml').status).toBe(2);
    expect(run('probe', 'reeds.yaml', '-o', 'no/such/p.mid')).toMatchObject({ status: 1 });
    expect(readFileSync(join(cwd, 'reeds.yaml'), 'utf8')).toBe(text);
  });
});

describe('keyslip measure', () => {
  it('tells what a bounce says, and writes nothing unless asked', () => {
    const { status, out, err } = run('measure', 'bounce.wav', '--map', 'reeds.yaml');
    expect({ status, err }).toEqual({ status: 0, err: '' });
    expect(out).toMatch(/long +(7[5-9]|8\d) ms/u);
    expect(readFileSync(join(cwd, 'reeds.yaml'), 'utf8')).toBe(text);
    const json = JSON.parse(run('measure', 'bounce.wav', '--map', 'reeds.yaml', '--json').out);
    expect(json).toMatchObject({ format: 'keyslip-measure/1', bounce: { clicks: 'both' } });
    // The threshold of 12 dB lies a few ms behind the attack's beginning.
    expect(Math.abs(json.articulations.long.speaksAfterMs - 80)).toBeLessThan(10);
  });

  it('writes into the map with --write, which is then in order', () => {
    writeFileSync(join(cwd, 'mine.yaml'), text);
    const { status, out } = run('measure', 'bounce.wav', '--map', 'mine.yaml', '--write');
    expect(status).toBe(0);
    expect(out).toContain('written into mine.yaml');
    const after = readFileSync(join(cwd, 'mine.yaml'), 'utf8');
    expect(after).toContain('# the usual one');
    expect(readWhole(after).referenceLevel).toBeLessThan(-10);
    expect(readWhole(after).articulations.get('long')?.speaksAfter[0]?.is).toMatchObject({ unit: 'ms' });
    expect(run('check', '--strict', 'mine.yaml')).toMatchObject({ status: 0, err: '' });
  });

  it('says what cannot be written, since a base has it: not-written', () => {
    writeFileSync(join(cwd, 'own.yaml'), text.replace(/articulations:[\s\S]*/u, 'base: reeds.yaml\n'));
    const { status, err } = run('measure', 'bounce.wav', '--map', 'own.yaml', '--write');
    expect(status).toBe(0);
    expect(err).toContain('[not-written]');
    expect(run('check', 'own.yaml').status).toBe(0);
  });

  it('writes nothing from the bounce of another map: no-clicks', () => {
    const other = text.replace('range: [C3, C5]', 'range: [C3, G5]');
    writeFileSync(join(cwd, 'other.yaml'), other);
    const refused = run('measure', 'bounce.wav', '--map', 'other.yaml', '--write');
    expect(refused.status).toBe(1);
    expect(refused.err).toContain('[no-clicks]');
    expect(readFileSync(join(cwd, 'other.yaml'), 'utf8')).toBe(other);
  });

  it('refuses what is no stereo sound with a sentence', () => {
    run('probe', 'reeds.yaml', '-o', 'm.mid', '--quick');
    for (const [file, code] of [
      ['m-click.wav', 'wav-channels'],
      ['reeds.yaml', 'not-wav'],
      ['lost.wav', 'cannot-read'],
      ['.', 'cannot-read'],
    ] as const) {
      const { status, out, err } = run('measure', file, '--map', 'reeds.yaml');
      expect({ status, out, told: err.includes(`[${code}]`) }).toEqual({ status: 1, out: '', told: true });
      expect(err).not.toContain('    at ');
    }
    expect(run('measure', 'bounce.wav').status).toBe(2);
    expect(run('measure', '-', '--map', 'reeds.yaml').status).toBe(2);
    expect(existsSync(join(cwd, 'bounce.wav'))).toBe(true);
  });
});
