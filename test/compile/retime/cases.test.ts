import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { proofOf } from '../../../src/api/proof.js';
import { compile, partsOf, withPreroll } from '../../../src/compile/index.js';
import { readMidi } from '../../../src/midi/read/index.js';
import { asPlayed, type TimingOptions } from '../../../src/timing/options.js';
import { decisionsIn, nowIn } from '../../support/decided.js';
import { readWhole } from '../../support/map.js';

// Small files that came out wrong once; the proof is told the same options.
const folder = 'test/cases/timing';
const strings = 'maps/lantern-street-strings.yaml';
const quarters = [{ numerator: 1, denominator: 4 }];
const sixteenths = [{ numerator: 1, denominator: 16 }];

interface Case {
  readonly map: string;
  readonly timing: Partial<TimingOptions>;
  readonly track?: number;
  readonly preroll?: number;
}

function songFrom(name: string) {
  const { value } = readMidi(new Uint8Array(readFileSync(`${folder}/${name}.mid`)), `${name}.mid`);
  if (!value) throw new Error(`${name} cannot be read`);
  return value;
}

function compiled(name: string, { map, timing, track, preroll }: Case) {
  const played = songFrom(name);
  const song = (preroll && withPreroll(played, preroll)) || played;
  const jobs = song.tracks
    .filter(({ number }) => track === undefined || number === track)
    .flatMap(partsOf)
    .map((part) => ({
      part,
      map: readWhole(readFileSync(map, 'utf8')),
      timing: { ...asPlayed, ...timing },
    }));
  const { value, diagnostics } = compile(song, jobs, played);
  const again = value && readMidi(value.bytes, 'out.mid').value;
  return {
    parts: value?.parts ?? [],
    codes: diagnostics.map(({ code }) => code),
    violations: value && again ? proofOf(again, song, value, true).violations : undefined,
  };
}

describe('what timing options do is proved', () => {
  const cases: Readonly<Record<string, Case>> = {
    hd1: { map: strings, timing: { compensate: true } },
    n8664: { map: strings, timing: { compensate: true } },
    m3508: { map: strings, timing: { compensate: true } },
    c9018: {
      map: 'maps/demo/libraries/harbour-light-horns.yaml',
      timing: { pull: 0.75, grids: quarters },
    },
    c11094: {
      map: 'maps/general-midi-woodwinds.yaml',
      timing: { pull: 0.54, grids: quarters },
      track: 1,
      preroll: 1,
    },
    c11210: {
      map: 'maps/demo/libraries/kelp-row-brass.yaml',
      timing: { compensate: true, joins: true, pull: 0.56, grids: sixteenths },
      track: 2,
    },
    spread: { map: `${folder}/two-lengths.yaml`, timing: { pull: 1, grids: sixteenths } },
    c804: { map: 'maps/gull-chapel-choir.yaml', timing: { roll: { sdMs: 18, order: 'unordered' } } },
    flam: { map: strings, timing: { roll: { sdMs: 18, order: 'unordered' } } },
  };
  for (const [name, one] of Object.entries(cases))
    it(`${name}.mid`, () => {
      const { violations, parts } = compiled(name, one);
      expect(violations).toEqual([]);
      expect(parts.length).toBeGreaterThan(0);
    });
});

describe('what no file can say is told', () => {
  it('held268435455.mid: a note as long as a time in a file can be, which would end later', () => {
    const { codes, violations } = compiled('held268435455', {
      map: 'maps/saltmarsh-horns.yaml',
      timing: { pull: 0.4, compensate: true },
    });
    expect(codes).toContain('midi-time');
    expect(violations).toBeUndefined();
  });

  it('m2225.mid: a second is 33 milliards of ticks', () => {
    const { codes, violations } = compiled('m2225', {
      map: 'maps/demo/libraries/bell-buoy-drums.yaml',
      timing: { roll: { sdMs: 1000, order: 'unordered' } },
      track: 1,
    });
    expect(codes).toContain('midi-time');
    expect(violations).toBeUndefined();
  });
});

describe('spread.mid', () => {
  it('leaves a tick between the last note of each chord and the next onset', () => {
    const [part] = compiled('spread', {
      map: `${folder}/two-lengths.yaml`,
      timing: { pull: 1, grids: sixteenths },
    }).parts;
    const now = nowIn(part);
    expect(now.length).toBe(15);
    now.forEach(({ note }, at) => {
      const before = now[at - 1]?.note;
      if (before && before.onset !== note.onset) expect(note.tick).toBeGreaterThan(before.tick);
    });
  });
});

describe('a chord is pulled as one', () => {
  for (const name of ['chord38', 'chord45', 'chord60'])
    it(`${name}.mid keeps its spread and its articulation`, () => {
      const { parts, violations } = compiled(name, { map: strings, timing: { pull: 0.6 } });
      expect(violations).toEqual([]);
      const plain = compiled(name, { map: strings, timing: {} }).parts[0];
      const [part] = parts;
      expect(decisionsIn(part).map(({ articulation }) => articulation)).toEqual(
        decisionsIn(plain).map(({ articulation }) => articulation),
      );
      const chords = part?.line.onsets.filter(({ notes }) => notes.length > 1) ?? [];
      expect(chords.length).toBeGreaterThan(0);
      let moved = 0;
      for (const { index } of chords) {
        const shifts = decisionsIn(part).flatMap(({ note }, at) =>
          note.onset === index ? [(nowIn(part)[at]?.note.tick ?? 0) - note.tick] : [],
        );
        expect(new Set(shifts).size).toBe(1);
        if (shifts?.[0] !== 0) moved += 1;
      }
      expect(moved).toBeGreaterThan(0);
    });
});

describe('flam.mid', () => {
  it('keeps the order and the length of repeated strokes, whatever is asked for', () => {
    for (const timing of [
      { roll: { sdMs: 18, order: 'unordered' } },
      { roll: { sdMs: 40, order: 'high-low' }, loosenMs: 20, pull: 1 },
    ] as const) {
      const [part] = compiled('flam', { map: strings, timing }).parts;
      expect(decisionsIn(part).length).toBeGreaterThan(20);
      nowIn(part).forEach(({ note }, at, all) => {
        const played = decisionsIn(part)[at]?.note;
        expect(note.velocity).toBe(played?.velocity);
        expect(note.tick).toBeGreaterThan(all[at - 1]?.note.tick ?? -1);
        // within a tick, since lengths are kept in real time
        const length = (played?.endTick ?? 0) - (played?.tick ?? 0);
        expect(Math.abs(note.endTick - note.tick - length)).toBeLessThanOrEqual(1);
      });
    }
  });
});
