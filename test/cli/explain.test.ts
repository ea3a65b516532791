import { describe, expect, it } from 'vitest';
import { keyslip } from '../support/cli.js';

const words = ['explain', 'maps/demo/last-boat.mid', '--map', 'maps/saltmarsh-horns.yaml'];

interface Note {
  readonly bar: number;
  readonly beat: number;
}

function notesAt(at: string): readonly Note[] {
  const { out } = keyslip([...words, '--json', '--at', at]);
  return (JSON.parse(out) as { parts: { notes: Note[] }[] }).parts.flatMap(({ notes }) => notes);
}

describe('keyslip explain', () => {
  it('names for each note the line of the rule that decided', () => {
    const { status, out } = keyslip(words);
    expect(status).toBe(0);
    expect(out).toMatch(/maps\/saltmarsh-horns\.yaml:\d+: held \d/u);
    expect(out).toContain('[con sord.]');
  });

  it('keeps to a bar, a beat or a stretch, both ends included', () => {
    expect(new Set(notesAt('8').map(({ bar }) => bar))).toEqual(new Set([8]));
    expect(notesAt('3.2').every(({ bar, beat }) => bar === 3 && beat === 2)).toBe(true);
    const stretch = notesAt('9..11.1').map(({ bar }) => bar);
    expect([Math.min(...stretch), Math.max(...stretch)]).toEqual([9, 11]);
    expect(notesAt('1..99').length).toBeGreaterThan(stretch.length);
  });

  it('refuses what is no place', () => {
    for (const at of ['0', '2.0', '5..3', '1.2.3', '-1', '1..', 'x'])
      expect(keyslip([...words, `--at=${at}`]).status).toBe(2);
  });
});
