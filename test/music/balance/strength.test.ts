import { describe, expect, it } from 'vitest';
import { levelOfMark } from '../../../src/dynamics/levels.js';
import {
  departmentOf,
  departmentPlayers,
  departments,
  loudnessOf,
  strengthOf,
} from '../../../src/music/balance/strength.js';
import { type InstrumentKind, instrumentKinds } from '../../../src/music/instruments/index.js';

const at = (mark: string) => levelOfMark(mark) ?? Number.NaN;
const strength = (players: number, kind: InstrumentKind, mark: string) => strengthOf(kind, players, at(mark));

// Rimsky-Korsakov, Principles of Orchestration (Agate), chapter I, comparison of resonance
describe('strengthOf', () => {
  it('has one trumpet, trombone or tuba equal to two horns in forte, and four horns to two trumpets', () => {
    for (const kind of ['trumpet', 'trombone', 'tuba'] as const) {
      expect(strength(1, kind, 'f')).toBe(strength(2, 'horn', 'f'));
    }
    expect(strength(4, 'horn', 'f')).toBe(strength(2, 'trumpet', 'f'));
  });

  it('has one horn equal to two woodwinds in forte', () => {
    expect(strength(1, 'horn', 'f')).toBe(strength(2, 'woodwind', 'f'));
  });

  it('has all winds equal in piano, so that four horns are double two trumpets', () => {
    for (const kind of ['trumpet', 'trombone', 'tuba', 'woodwind'] as const) {
      expect(strength(1, kind, 'p')).toBe(strength(1, 'horn', 'p'));
    }
    expect(strength(4, 'horn', 'p')).toBe(2 * strength(2, 'trumpet', 'p'));
  });

  it('has a department of strings equal to one wind in piano and to two woodwinds in forte', () => {
    expect(strength(departmentPlayers, 'strings', 'p')).toBe(strength(1, 'woodwind', 'p'));
    expect(strength(departmentPlayers, 'strings', 'f')).toBe(strength(2, 'woodwind', 'f'));
  });

  it('has every department of the medium orchestra equal to one wind in piano and two in forte, small or large', () => {
    expect(Object.values(departments)).toEqual([12, 10, 8, 6, 5]);
    for (const players of Object.values(departments)) {
      expect(strengthOf('strings', players, at('p'), players)).toBe(strength(1, 'woodwind', 'p'));
      expect(strengthOf('strings', players, at('f'), players)).toBe(strength(2, 'woodwind', 'f'));
    }
  });

  it('changes evenly in dB between piano and forte, and no further beyond', () => {
    const ratio = (mark: string) => 10 * Math.log10(strength(1, 'trumpet', mark) / strength(1, 'horn', mark));
    const whole = 10 * Math.log10(2);
    expect(['ppp', 'p', 'mp', 'mf', 'f', 'fff'].map(ratio)).toEqual(
      [0, 0, whole / 3, (2 * whole) / 3, whole, whole].map((value) => expect.closeTo(value, 10)),
    );
  });

  it('counts every player', () => {
    for (const kind of instrumentKinds) {
      expect(strength(6, kind, 'mf')).toBeCloseTo(2 * strength(3, kind, 'mf'), 12);
    }
  });
});

describe('loudnessOf', () => {
  it('has equal strengths equally loud, and double the strength 3 dB louder', () => {
    expect(loudnessOf('horn', 4, at('f'), 90)).toBeCloseTo(loudnessOf('trumpet', 2, at('f'), 90), 12);
    expect(loudnessOf('horn', 4, at('p'), 45) - loudnessOf('trumpet', 2, at('p'), 45)).toBeCloseTo(3.0103, 4);
  });

  it('has a woodwind at velocity 64 at −11.9 dB (General MIDI level 1 developer guidelines)', () => {
    expect(loudnessOf('woodwind', 1, at('mf'), 64)).toBeCloseTo(-11.9, 1);
  });
});

describe('departmentOf', () => {
  it('knows first and second violins, violas, cellos and basses', () => {
    const of = (name: string, instrument?: string) => departmentOf(name, instrument);
    expect([of('Violins 1', 'violin'), of('Violins II', 'violin'), of('2. Violinen', 'violin')]).toEqual([
      departments['violins 1'],
      departments['violins 2'],
      departments['violins 2'],
    ]);
    expect([of('Bratschen', 'viola'), of('Celli', 'cello'), of('Kontrabässe', 'double bass')]).toEqual([
      8, 6, 5,
    ]);
    expect(of('Strings')).toBe(departmentPlayers);
  });
});
