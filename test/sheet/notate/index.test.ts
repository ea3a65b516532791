import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { clockOf } from '../../../src/midi/clock/index.js';
import { readMidi } from '../../../src/midi/read/index.js';
import { notate } from '../../../src/sheet/notate/index.js';
import type { Notation, ScoreToNotate } from '../../../src/sheet/notate/types.js';
import { draws } from '../../support/draws.js';
import { notesOn } from '../../support/events.js';
import { type ReadBack, startEngraver } from './engraver.js';
import { randomScore } from './random.js';
import { clockWith, lineOf, notesOf, PPQ, scoreOf, staffOf } from './scores.js';
import { elementsOf, named, wrongLayers } from './written.js';

let engrave: (mei: string) => ReadBack;

beforeAll(async () => {
  engrave = await startEngraver();
});

/** A rolled chord's notes are played one after another, so up to this many quarters late. */
const ROLLED = 1;

/** What an outside reader must find in every written score. */
function expectWritten(score: ScoreToNotate, notation: Notation, compressed: RegExp | string = ''): void {
  const { mei, bars, positions } = notation;
  const read = engrave(mei);
  expect(read.log.replace(compressed, '')).toBe('');
  expect(read.pages).toBe((bars.at(-1)?.system ?? 0) + 1);
  expect(wrongLayers(mei)).toEqual([]);

  const ids = elementsOf(mei).flatMap(({ attribs }) => attribs['xml:id'] ?? []);
  expect(new Set(ids).size).toBe(ids.length);
  for (const id of positions.keys()) expect(ids).toContain(id);

  const notes = score.staves.flatMap((staff) => staff.notes);
  expect(read.played).toEqual(notes.map(({ pitch }) => pitch).sort((a, b) => a - b));
  const rolled = new Set(named(mei, 'arpeg').flatMap(({ attribs }) => (attribs.plist ?? '').split(' ')));
  for (const { id, pitch, tick } of notes) {
    expect(read.pitchOf(id)).toBe(pitch);
    const position = positions.get(id) ?? Number.NaN;
    expect(Math.abs(position - tick)).toBeLessThanOrEqual(score.clock.ticksPerWhole ?? 0);
    const onset = (read.onsets.get(id) ?? Number.NaN) - quartersAt(score, bars, position);
    expect(onset).toBeGreaterThan(-0.01);
    expect(onset).toBeLessThan(rolled.has(`#${id}`) ? ROLLED : 0.01);
  }
}

/** Quarters from the start, as the bars are written: one that is cut short in a way no fraction measures is not exact. */
function quartersAt({ clock }: ScoreToNotate, bars: Notation['bars'], tick: number): number {
  const quarter = (clock.ticksPerWhole ?? 0) / 4;
  let quarters = 0;
  for (const bar of bars) {
    if (tick < bar.endTick) return quarters + (tick - bar.tick) / quarter;
    quarters += Math.max(1 / 16, Math.round(((bar.endTick - bar.tick) / quarter) * 16) / 16);
  }
  return Number.NaN;
}

describe('read by Verovio', () => {
  it('any music has every note at its pitch and place', () => {
    fc.assert(
      fc.property(randomScore, (score) => {
        expectWritten(score, notate(score));
      }),
      { numRuns: draws(80) },
    );
  });

  it.each(['skerry-point.mid', 'last-boat.mid'])('%s', (file) => {
    const { value: song } = readMidi(
      readFileSync(new URL(`../../../maps/demo/${file}`, import.meta.url)),
      file,
    );
    const tracks = song?.tracks ?? [];
    const staves = tracks.flatMap((track) =>
      Array.from({ length: 16 }, (_, channel) => notesOn(track, channel))
        .filter((notes) => notes.length > 0)
        .map((notes) => ({
          label: track.name,
          words: [],
          notes: notes.map(({ tick, endTick, pitch, onIndex }) => {
            return { id: `n${track.number}-${onIndex}`, tick, endTick, pitch };
          }),
        })),
    );
    expect(staves.length).toBeGreaterThan(0);
    const score = scoreOf(staves, song ? { clock: clockOf(song, 1) } : {});
    expectWritten(score, notate(score));
  });

  it('texts stand at their notes, whatever they are made of', () => {
    const hostile = '<img src=x onerror="alert(1)"> & \u{1b}[31m\u{0}\ud800';
    const staff = staffOf(lineOf([1, 1, 2], [60, 62, 64]), { label: hostile });
    const words = [
      { id: 'n1', text: hostile },
      { id: 'nobody', text: 'lost' },
    ];
    const chords = [
      { tick: 0, text: 'Cm7' },
      { tick: PPQ * 2.5, text: hostile },
    ];
    const score = scoreOf([{ ...staff, words }], { chords });
    const notation = notate(score);
    expectWritten(score, notation);
    const dirs = named(notation.mei, 'dir');
    expect(dirs.map(({ attribs }) => attribs.startid)).toEqual(['#n1']);
    const names = named(notation.mei, 'harm').map(({ attribs }) => attribs.tstamp);
    expect(names).toEqual(['1', '3.5']);
    expect(notation.mei).not.toContain('<img');
  });

  it('a label of nothing but controls, and no staff at all', () => {
    const unnamed = scoreOf([staffOf([[0, 4, 60]], { label: '\u{7}\u{8} ' })]);
    expectWritten(unnamed, notate(unnamed));
    expect(notate(scoreOf([])).bars).toHaveLength(1);
  });

  it('the lowest and the highest pitch', () => {
    const pitches = [0, 1, 11, 12, 126, 127];
    const score = scoreOf([
      staffOf(
        lineOf(
          pitches.map(() => 1),
          pitches,
        ),
      ),
    ]);
    expectWritten(score, notate(score));
  });

  // A page is no wider than about ninety heads side by side: of such a bar Verovio says so, and draws it.
  it.each([4, 40, 400])('a crowd of onsets at %d quarters a minute', (bpm) => {
    const notes = notesOf(
      Array.from({ length: 300 }, (_, index) => [index / 150, 0.004, 40 + (index % 48)]),
      'n',
      9600,
    );
    const score = scoreOf([{ label: '', words: [], notes }], { clock: clockWith([], bpm, 9600) });
    expectWritten(
      score,
      notate(score),
      /\[Warning\] Justification is highly compressed[^[]*(\[Warning\] \t[^[]*)*/gu,
    );
  });
});

it('no two onsets share a place unless they were struck together, and none overtakes another', () => {
  fc.assert(
    fc.property(randomScore, (score) => {
      const { mei, positions } = notate(score);
      const rolled = new Set(named(mei, 'arpeg').flatMap(({ attribs }) => (attribs.plist ?? '').split(' ')));
      for (const { notes } of score.staves)
        notes.forEach(({ id, tick }, index) => {
          const next = notes[index + 1];
          if (!next) return;
          const [here = 0, there = 0] = [positions.get(id), positions.get(next.id)];
          const ms = score.clock.ms(next.tick) - score.clock.ms(tick);
          const isApart = ms > 35 && next.tick - tick > (score.clock.ticksPerWhole ?? 0) / 512;
          if (isApart && !rolled.has(`#${id}`)) expect(there).toBeGreaterThan(here);
          else expect(there).toBeGreaterThanOrEqual(here);
        });
    }),
    { numRuns: draws(120) },
  );
});

it('the same music gives the same text', () => {
  fc.assert(
    fc.property(randomScore, (score) => {
      expect(notate(score).mei).toBe(notate(structuredCopy(score)).mei);
    }),
    { numRuns: draws(20) },
  );
});

function structuredCopy(score: ScoreToNotate): ScoreToNotate {
  const staves = score.staves.map((staff) => ({ ...staff, notes: staff.notes.map((note) => ({ ...note })) }));
  return { ...score, staves };
}
