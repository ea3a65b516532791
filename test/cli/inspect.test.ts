import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';

describe('keyslip inspect', () => {
  it('is one screen with --brief, however long the music is', () => {
    const { status, out } = keyslip(['inspect', 'maps/demo/skerry-point.mid', '--brief']);
    expect(status).toBe(0);
    expect(out.trim().split('\n').length).toBeLessThanOrEqual(24);
    expect(out).toMatch(/^Key: D minor, \d+ % of the time$/mu);
    expect(out).toMatch(/^voicing: \d+ remarks?$/mu);
    const told = JSON.parse(keyslip(['inspect', 'maps/demo/skerry-point.mid', '--brief', '--json']).out) as {
      parts: { notes: number; mechanical: { share: number }[] }[];
      key: { name: string };
      remarks: { inspection: string; count: number; worst: unknown[] }[];
    };
    expect(told.key.name).toBe('D minor');
    expect(told.parts.length).toBeGreaterThan(1);
    for (const { count, worst } of told.remarks) expect(worst).toHaveLength(Math.min(3, count));
    const shares = told.parts.map(({ mechanical }) => mechanical[0]?.share ?? 0);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
  });
  it('speaks of every part, without a map', () => {
    const { status, out } = keyslip(['inspect', 'maps/demo/last-boat.mid']);
    expect(status).toBe(0);
    expect(out).toContain('Track 2 "Horns", channel 1: 38 notes');
  });
  it('prints JSON', () => {
    const { parts } = JSON.parse(keyslip(['inspect', 'maps/demo/last-boat.mid', '--json']).out) as {
      parts: { measures: unknown[] }[];
    };
    expect(parts[0]?.measures).toHaveLength(5);
  });
  it('tells chords, how they are laid out, where parts lie, and what covers what', () => {
    const { out } = keyslip(['inspect', 'maps/demo/skerry-point.mid']);
    expect(out).toMatch(/Harmony:\n.*\n {2}in D minor:\n {2}1\.1 +Dm7 +i +D3/u);
    expect(out).toContain('bare fifths (A2–E3–E5): without a third it is neither major nor minor');
    expect(out).toContain('  Trumpets (trumpet, harmony): G4–E5');
    expect(out).toContain('Balance over 9 bars');
  });
  it('looks at the range of a map, and takes its switch keys for no music', () => {
    const folder = scratchFolder();
    const switched = join(folder, 'switched.mid');
    const map = ['--map', 'maps/saltmarsh-horns.yaml'];
    keyslip(['compile', 'maps/demo/last-boat.mid', ...map, '-o', switched]);
    const music = (...words: readonly string[]) => {
      const { harmony, register } = JSON.parse(keyslip(['inspect', ...words, '--json']).out) as {
        harmony: unknown;
        register: { lowestName: string; outsideRecording: unknown }[];
      };
      return { harmony, register };
    };
    const asPlayed = music('maps/demo/last-boat.mid', ...map);
    expect(music(switched, ...map)).toEqual(asPlayed);
    expect(asPlayed.register[0]?.outsideRecording).toBeNull();
    expect(music(switched).register[0]?.lowestName).toBe('C-1');
    const other = keyslip([
      'inspect',
      'maps/demo/last-boat.mid',
      '--map',
      'maps/lantern-street-strings.yaml',
    ]);
    expect(other.status).toBe(0);
    expect(other.out).toContain('4 notes outside what the recording has, C3–E6: A2–B2');
    const missing = keyslip(['inspect', 'maps/demo/last-boat.mid', '--map', 'none.yaml']);
    expect([missing.status, missing.out]).toEqual([1, '']);
  });
  it('tells the chord of each beat or bar where that is asked for', () => {
    const rows = (...per: readonly string[]) => {
      const { out } = keyslip(['inspect', 'maps/demo/skerry-point.mid', '--json', ...per]);
      return (JSON.parse(out) as { harmony: { bar: number; beat: number; chord: string }[] }).harmony;
    };
    const bars = rows('--per', 'bar');
    expect(new Set(bars.map(({ bar }) => bar)).size).toBe(bars.length);
    expect(bars.every(({ beat }) => beat === 1)).toBe(true);
    const beats = rows('--per', 'beat');
    expect(beats.length).toBeGreaterThan(2 * bars.length);
    expect(rows()[0]).toMatchObject({
      bar: 1,
      beat: 1,
      chord: 'Dm7',
      bass: 'D3',
      key: 'D minor',
      degree: 'i',
    });
    expect(keyslip(['inspect', 'maps/demo/skerry-point.mid', '--per', 'week']).status).toBe(2);
  });
});

describe('timing options', () => {
  const words = [
    'compile',
    'maps/demo/last-boat.mid',
    '--map',
    'maps/saltmarsh-horns.yaml',
    '-o',
    '/dev/null',
  ];
  it('are told in the summary, and explained note by note', () => {
    const { status, out, err } = keyslip([
      ...words,
      '--compensate',
      '--preroll',
      '1',
      '--joins',
      '--pull',
      '60%',
      '--roll',
      '18ms',
      '--loosen',
      '8ms',
    ]);
    expect([status, err]).toEqual([0, '']);
    expect(out).toMatch(/38 notes moved, by up to \d+ ms earlier/u);
    const explained = keyslip(['explain', ...words.slice(1, 4), '--compensate']).out;
    expect(explained).toContain('compensate −');
  });
  it('stand in the report with their seed', () => {
    const { out } = keyslip([...words, '--roll', '18ms', '--json', '--seed', '7']);
    expect(JSON.parse(out)).toMatchObject({ timing: { seed: 7, roll: { sdMs: 18, order: 'unordered' } } });
  });
  it('that make no sense are status 2', () => {
    for (const option of [
      ['--pull', '160%'],
      ['--pull', '0.6'],
      ['--pull', 'flute=6%'],
      ['--grid', '1/0'],
      ['--roll', '18'],
      ['--loosen', '5s'],
      ['--preroll', '99'],
      ['--seed', 'x'],
      ['--roll-order', 'up'],
    ])
      expect([option, keyslip([...words, ...option]).status]).toEqual([option, 2]);
  });
});
