import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { compile, type GivenMap, prove } from '../../src/api/index.js';
import type { TimingChoice } from '../../src/api/music.js';

// Events of the music's own that reach the map's switches: each file came out wrong once.

const caseFile = (name: string) => readFileSync(new URL(`events/${name}`, import.meta.url));
const mapText = (name: string) => readFileSync(new URL(`../../maps/${name}.yaml`, import.meta.url), 'utf8');
const momentary = readFileSync(new URL('events/rs_mom.yaml', import.meta.url), 'utf8');
const strings = mapText('lantern-street-strings');

/** Compiles, proves against the recording, and hands back what both found. */
function played(midi: Uint8Array, given: GivenMap, timing?: TimingChoice) {
  const options = { maps: given, ...(timing ? { timing } : {}) };
  const { bytes, notes, diagnostics } = compile(midi, options);
  const proof = bytes && prove(bytes, { ...options, against: midi });
  return { notes: notes.flatMap((part) => part.notes), diagnostics, proof };
}

describe("the music's own events", () => {
  it('stray.mid: a stray release of a held switch key is told, and the key is pressed again', () => {
    const { proof, diagnostics, notes } = played(caseFile('stray.mid'), { map: strings });
    expect(proof?.violations).toEqual([]);
    const stray = diagnostics.find(({ code }) => code === 'stray-release');
    expect(stray?.hint).toContain('C1');
    expect(stray?.hint).not.toContain('no harm');
    expect(notes.filter(({ switchTick }) => switchTick !== null)).toHaveLength(1);
  });

  it('gm-reset-between.mid: keys are pressed again behind System On', () => {
    const { proof, notes } = played(caseFile('gm-reset-between.mid'), { map: momentary });
    expect(proof?.violations).toEqual([]);
    // Once at the beginning, once behind the reset; the third note has its key already.
    expect(notes.map(({ switchTick }) => switchTick !== null)).toEqual([true, true, false]);
  });

  it('cc123-midnote.mid: the proof does not blame all notes off on the compiler', () => {
    const { proof } = played(caseFile('cc123-midnote.mid'), { map: momentary });
    expect(proof?.violations).toEqual([]);
    expect(proof?.parts[0]?.wrongNotes).toBe(0);
  });

  it('unclosed.mid: the proof does not blame a last note that is never released', () => {
    const { proof, diagnostics } = played(caseFile('unclosed.mid'), { map: momentary });
    expect(proof?.violations).toEqual([]);
    expect(diagnostics.map(({ code }) => code)).toEqual(['unclosed-note']);
  });

  it('hang.mid: a held key may be let go at the end of the track', () => {
    expect(played(caseFile('hang.mid'), { map: strings }).proof?.violations).toEqual([]);
  });

  it('c804.mid: repeated pitches that go to several channels are paired alike', () => {
    const midi = readFileSync(new URL('timing/c804.mid', import.meta.url));
    const timing = { roll: { sdMs: 18, order: 'unordered' } } as const;
    const given = { map: mapText('gull-chapel-choir') };
    expect(played(midi, given, timing).proof?.violations).toEqual([]);
  });

  it("c11582.mid: a restate beside the part's own bank", () => {
    const map = mapText('general-midi-woodwinds').replace(
      /^switching:$/m,
      'switching:\n  restate: {every-bars: 4, after-rest: 501ms}',
    );
    const { proof, diagnostics } = played(caseFile('c11582.mid'), { map, track: 2 });
    expect(diagnostics.map(({ code }) => code)).toEqual(['switch-in-input']);
    expect(proof?.violations).toEqual([]);
  });
});
