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

  // Measured: of 168 beats 159 names and 162 roots by the beat, 148 names and 158 roots as found.
  it('agree by the beat, and where the harmonic rhythm is found', () => {
    const { beats, names, roots, found, foundRoots } = sums(chorales);
    expect(beats).toBe(168);
    expect(names).toBeGreaterThanOrEqual(156);
    expect(roots).toBeGreaterThanOrEqual(160);
    expect(found).toBeGreaterThanOrEqual(145);
    expect(foundRoots).toBeGreaterThanOrEqual(155);
  });

  // Measured: of 32 beats 30 names by the beat, 29 as found.
  it('agree in chorales that no figure was set by', () => {
    const { beats, names, found } = sums(unseen);
    expect(beats).toBe(32);
    expect(names).toBeGreaterThanOrEqual(29);
    expect(found).toBeGreaterThanOrEqual(28);
  });

  it.each(
    [...chorales, ...unseen]
      .filter(({ title }) => !title.startsWith('74'))
      .map((chorale) => [chorale.title, chorale] as const),
  )('have the key of the edition: %s', (_, chorale) => {
    const found = harmonyOf(notesOf(chorale), clockFor(chorale.beatsPerBar), { per: 'found' });
    expect(new Set(found.map(({ key }) => key.name))).toEqual(new Set([chorale.key]));
  });

  it('O Haupt voll Blut und Wunden, a Phrygian melody whose phrases cadence in F and in D minor, is heard in D minor', () => {
    const chorale = chorales.find(({ title }) => title.startsWith('74'));
    const found = chorale ? harmonyOf(notesOf(chorale), clockFor(), { per: 'found' }) : [];
    expect(new Set(found.map(({ key }) => key.name))).toEqual(new Set(['D minor']));
  });
});
