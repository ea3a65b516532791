import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { keyslip, scratchFolder } from '../support/cli.js';

interface Told {
  readonly parts: readonly {
    readonly notes: readonly { readonly bar: number; readonly beat: number; readonly articulation: string }[];
  }[];
}

/** Invented music that was decided wrongly once. */
const notesOf = (file: string, map: string, ...words: readonly string[]) => {
  const { out } = keyslip(['explain', `test/cases/deciding/${file}`, '--map', map, '--json', ...words]);
  return (JSON.parse(out) as Told).parts.flatMap(({ notes }) => notes);
};

describe('cases of deciding', () => {
  it('markearly: a note played 6 ticks before its mark is at the mark', () => {
    const found = notesOf('markearly.mid', 'maps/lantern-street-strings.yaml');
    expect(found.map(({ articulation }) => articulation)).toEqual(['long', 'plucked', 'plucked', 'long']);
  });

  it('early: downbeats that were played early are told in their own bars', () => {
    const all = notesOf('early.mid', 'test/cases/tallow-horns.yaml');
    expect(all.map(({ bar, beat }) => [bar, beat])).toEqual([2, 3, 4, 5, 6, 7, 8, 9].map((bar) => [bar, 1]));
    expect(notesOf('early.mid', 'test/cases/tallow-horns.yaml', '--at', '3')).toHaveLength(1);
  });

  it('fast16: sixteenths around a bound are one articulation, with no more switches than phrases', () => {
    const map = join(scratchFolder(), 'steady.yaml');
    const text = readFileSync('maps/saltmarsh-horns.yaml', 'utf8');
    writeFileSync(map, text.replace(/^steadiness: .*$/mu, 'steadiness: 40%'));
    const found = notesOf('fast16.mid', map).map(({ articulation }) => articulation);
    expect(found).toHaveLength(64);
    expect(found).not.toContain('legato');
    expect(found.filter((name, index) => name !== found[index - 1]).length).toBeLessThanOrEqual(2);
  });

  it('c-am: C, then A minor over a moving bass, are two chords', () => {
    const { out } = keyslip(['inspect', 'test/cases/deciding/c-am.mid', '--json']);
    const { harmony } = JSON.parse(out) as { harmony: { chord: string }[] };
    expect(harmony.map(({ chord }) => chord)).toEqual(['Dm', 'C', 'Am', 'F', 'Dm']);
  });
});
