import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';

const cue = 'maps/demo/skerry-point.cue.yaml';
const folder = scratchFolder();
const output = join(folder, 'out.mid');
keyslip(['cue', cue, '-o', output]);

describe('explain of a cue', () => {
  it('tells every part, layers too, without a map on the command line', () => {
    const { status, out } = keyslip(['explain', cue]);
    expect(status).toBe(0);
    for (const name of ['Horns', 'Horns – bite', 'Drums']) expect(out).toContain(`"${name}"`);
  });
  it('tells one part and some bars', () => {
    const { out } = keyslip(['explain', cue, '--part', 'Horns', '--at', '3..4', '--json']);
    const { parts } = JSON.parse(out) as { parts: { name: string; notes: { bar: number }[] }[] };
    expect(parts.map(({ name }) => name)).toEqual(['Horns', 'Horns – bite']);
    const bars = parts.flatMap(({ notes }) => notes.map(({ bar }) => bar));
    expect(bars.length).toBeGreaterThan(0);
    expect(bars.every((bar) => bar === 3 || bar === 4)).toBe(true);
  });
  it('refuses what a cue says itself, and --part without one', () => {
    const map = ['--map', 'maps/saltmarsh-horns.yaml'];
    expect(keyslip(['explain', cue, ...map]).status).toBe(2);
    expect(keyslip(['explain', cue, '--compensate']).status).toBe(2);
    expect(keyslip(['explain', 'maps/demo/last-boat.mid', ...map, '--part', 'Horns']).status).toBe(2);
    const { status, err } = keyslip(['explain', cue, '--part', 'Hrons']);
    expect([status, err.includes('did you mean "Horns"?')]).toEqual([2, true]);
  });
});

describe('prove with a cue', () => {
  it('needs no recording, no maps and no options', () => {
    const { status, out } = keyslip(['prove', output, '--cue', cue]);
    expect([status, out.includes('"Horns – bite"')]).toEqual([0, true]);
  });
  it('finds what was changed, where it is told to look', () => {
    const recording = ['maps/demo/skerry-point.mid', '--cue', cue];
    expect(keyslip(['prove', ...recording]).status).toBe(1);
    const { out, status } = keyslip(['prove', ...recording, '--part', 'Drums', '--json']);
    const { violations } = JSON.parse(out) as { violations: { track: number | null }[] };
    expect(new Set(violations.flatMap(({ track }) => track ?? [])).size).toBeLessThanOrEqual(1);
    expect(status).toBe(1);
  });
  it('says so where the file that the cue names is not there, and refuses --against', () => {
    expect(keyslip(['prove', cue]).err).toContain('cannot-read');
    expect(keyslip(['prove', output, '--cue', cue, '--against', output]).status).toBe(2);
    expect(keyslip(['prove', output, '--map', 'maps/saltmarsh-horns.yaml', '--at', '3']).status).toBe(2);
  });
});

describe('inspect of a cue', () => {
  const balance = (...words: readonly string[]) => {
    const { out } = keyslip(['inspect', cue, '--json', ...words]);
    return (
      JSON.parse(out) as {
        balance: { sections: { name: string; role: string; gain?: number }[] }[];
      }
    ).balance;
  };
  it('names sections as the cue does, and counts its levels', () => {
    const sections = balance().flatMap((bar) => bar.sections);
    const horns = sections.filter(({ name }) => name === 'Horns');
    expect(horns.length).toBeGreaterThan(0);
    // level: -4, where its layer does not sound
    expect(horns.some(({ gain = 0 }) => Math.abs(gain + 4) < 0.1)).toBe(true);
  });
  it('takes the part with the tune as it is said', () => {
    const melodies = new Set(
      balance('--tune', 'Horns').flatMap(({ sections }) => {
        return sections.some(({ name }) => name === 'Horns')
          ? sections.flatMap(({ name, role }) => (role === 'melody' ? [name] : []))
          : [];
      }),
    );
    expect([...melodies]).toEqual(['Horns']);
    expect(keyslip(['inspect', cue, '--tune', 'Hrons']).status).toBe(2);
  });
});

describe('what else takes a cue', () => {
  it('inspect looks at the notes that are struck in some bars, of a cue and of a recording', () => {
    const chords = (input: string, ...words: readonly string[]) => {
      const { out } = keyslip(['inspect', input, '--json', ...words]);
      const { harmony } = JSON.parse(out) as { harmony: { bar: number }[] };
      return harmony.map(({ bar }) => bar);
    };
    for (const input of [cue, 'maps/demo/skerry-point.mid']) {
      const within = chords(input, '--at', '3..4');
      expect(within.length).toBeGreaterThan(0);
      expect(within.every((bar) => bar === 3 || bar === 4)).toBe(true);
      expect(Math.max(...chords(input))).toBeGreaterThan(5);
    }
    expect(keyslip(['inspect', cue, '--at', '4..3']).status).toBe(2);
  });

  it('suggest looks at its parts with their maps', () => {
    const { status, out } = keyslip(['suggest', cue, '--part', 'Horns', '--json']);
    const { parts } = JSON.parse(out) as { parts: { name: string }[] };
    expect([status, parts.map(({ name }) => name)]).toEqual([0, ['Horns']]);
    expect(keyslip(['suggest', cue, '--map', 'maps/saltmarsh-horns.yaml']).status).toBe(2);
  });

  it('compile says which command compiles one', () => {
    const { status, err } = keyslip(['compile', cue, '-o', output]);
    expect([status, err.includes(`keyslip cue "${cue}"`)]).toEqual([2, true]);
  });
});
