import { describe, expect, it } from 'vitest';
import { harmonyOf } from '../../../src/music/harmony/index.js';
import { type Chorale, chorales, unseen } from './chorales.js';
import { beat, clockFor, notesOf, startOf } from './support.js';

/** Beats whose name, root and name as found agree with the reading by hand, of how many. */
function agreement(chorale: Chorale) {
  const notes = notesOf(chorale);
  const clock = clockFor(chorale.beatsPerBar);
  const each = harmonyOf(notes, clock, { per: 'beat' });
  const found = harmonyOf(notes, clock, { per: 'found' });
  const rootOf = (name = '') => /^[A-G][♯♭]?/u.exec(name)?.[0];
  const sums = { beats: 0, names: 0, roots: 0, found: 0, foundRoots: 0 };
  chorale.beats
    .trim()
    .split(/\s+/u)
    .forEach((reading, index) => {
      if (reading === '.') return;
      const tick = startOf(chorale) + index * beat;
      const at = (place: number, of: typeof each) =>
        of.find((here) => here.tick <= place && here.endTick > place)?.chord?.name ?? 'none';
      const read = reading.split('|');
      const name = at(tick, each);
      const halves = [at(tick, found), at(tick + beat / 2, found)];
      sums.beats += 1;
      if (read.includes(name)) sums.names += 1;
      if (read.some((one) => rootOf(one) === rootOf(name))) sums.roots += 1;
      if (halves.some((half) => read.includes(half))) sums.found += 1;
      if (halves.some((half) => read.some((one) => rootOf(one) === rootOf(half)))) sums.foundRoots += 1;
    });
  return sums;
}

describe('chords of chorales, read by hand', () => {
  const sums = (all: readonly Chorale[]) =>
    all.map(agreement).reduce((total, one) => ({
      beats: total.beats + one.beats,
      names: total.names + one.names,
      roots: total.roots + one.roots,
      found: total.found + one.found,
      foundRoots: total.foundRoots + one.foundRoots,
    }));

  it('are written out whole: as many beats as each voice is long', () => {
    for (const chorale of [...chorales, ...unseen]) {
      const beats = chorale.beats.trim().split(/\s+/u).length;
      const ends = chorale.voices.map((_, part) =>
        notesOf(chorale).reduce((end, note) => (note.part === part ? Math.max(end, note.endTick) : end), 0),
      );
      expect(new Set(ends)).toEqual(new Set([startOf(chorale) + beats * beat]));
    }
  });

  // Measured: of 45 beats 40 names and 42 roots by the beat, 38 names and 41 roots as found.
  it('agree by the beat, and where the harmonic rhythm is found', () => {
    const { beats, names, roots, found, foundRoots } = sums(chorales);
    expect(beats).toBe(45);
    expect(names).toBeGreaterThanOrEqual(39);
    expect(roots).toBeGreaterThanOrEqual(41);
    expect(found).toBeGreaterThanOrEqual(36);
    expect(foundRoots).toBeGreaterThanOrEqual(39);
  });

  // Measured: of 190 beats 174 names and 182 roots by the beat, 177 names and 184 roots as found.
  it('agree in chorales that no figure was set by', () => {
    const { beats, names, roots, found, foundRoots } = sums(unseen);
    expect(beats).toBe(190);
    expect(names).toBeGreaterThanOrEqual(171);
    expect(roots).toBeGreaterThanOrEqual(179);
    expect(found).toBeGreaterThanOrEqual(174);
    expect(foundRoots).toBeGreaterThanOrEqual(181);
  });

  it.each([...chorales, ...unseen].map((chorale) => [chorale.title, chorale] as const))(
    'are heard in their key: %s',
    (_, chorale) => {
      const found = harmonyOf(notesOf(chorale), clockFor(chorale.beatsPerBar), { per: 'found' });
      expect(found.map(({ key }) => key.name)).toContain(chorale.key);
    },
  );
});
