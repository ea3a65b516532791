import fc from 'fast-check';
import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { compile, prove } from '../../../src/api/index.js';
import { sentPitch, sentVelocity } from '../../../src/compile/switching/sent.js';
import { firstData, isNoteOn, readMidi } from '../../../src/midi/index.js';
import { writeMidi } from '../../../src/midi/write/index.js';
import { draws } from '../../support/draws.js';
import { readWhole } from '../../support/map.js';
import { controllerAt, songOf, type TestNote, trackOf } from '../../support/song.js';

const head = (more: string) => `format: keyslip-map/1
library: Fallow Yard
instrument: Test
family: percussion
note-60: C4
range: [C2, C7]
${more}
`;
const strokes = head(`articulations:
  tap: {key: C3}
  roll: {key: D3, switch: {controller: 20, value: 1}}
rules: [{when: {held: {from: 300ms}}, use: roll}, {use: tap}]`);
const soft = head(`transpose: -12
switching: {notes: latching}
articulations:
  long: {velocity: {into: [1, 50]}, switch: {note: C0, held: true}}
  short: {velocity: {into: [51, 127]}, switch: {note: D0}}
  plain: {switch: {note: E0}}
rules: [{when: {held: {below: 200ms}}, use: short}, {when: {velocity: {from: 100}}, use: plain}, {use: long}]`);

function bytesOf(notes: readonly TestNote[], others: Parameters<typeof trackOf>[1] = []) {
  const bytes = writeMidi(songOf([trackOf(notes, others, 'Part')]), new Map()).value;
  if (!bytes) throw new Error('not written');
  return bytes;
}

function sentIn(bytes: Uint8Array | undefined) {
  return (parseMidi(bytes ?? []).tracks[0] ?? []).flatMap((event) =>
    event.type === 'noteOn' || event.type === 'noteOff' ? [event] : [],
  );
}

const note = (pitch: number, tick: number, end: number, velocity = 80): TestNote => ({
  pitch,
  tick,
  end,
  velocity,
});

describe('how notes are sent', () => {
  it('on the key of their articulation, the release with them', () => {
    const { bytes, notes } = compile(bytesOf([note(60, 0, 100), note(64, 960, 1900)]), {
      maps: { map: strokes },
    });
    const sent = sentIn(bytes).map(({ type, noteNumber }) => `${type} ${noteNumber}`);
    expect(sent).toEqual(['noteOn 48', 'noteOff 48', 'noteOn 50', 'noteOff 50']);
    expect(notes[0]?.notes).toMatchObject([
      { pitch: 60, sentPitch: 48 },
      { pitch: 64, sentPitch: 50 },
    ]);
  });

  it('says nothing of notes that go out as they were played', () => {
    const { notes } = compile(bytesOf([note(48, 0, 100)]), { maps: { map: strokes } });
    expect(Object.keys(notes[0]?.notes[0] ?? {}).filter((key) => key.startsWith('sent'))).toEqual([]);
  });

  it('lays velocities evenly into a range: 1 to the least, 127 to the most', () => {
    const of = (into: readonly [number, number]) => ({ ...tap(), velocity: { into } });
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 127 }), fc.integer({ min: 1, max: 127 }), (a, b) => {
        const into = [Math.min(a, b), Math.max(a, b)] as const;
        const articulation = of(into);
        const all = Array.from({ length: 127 }, (_, index) => sentVelocity(articulation, index + 1));
        expect(all[0]).toBe(into[0]);
        expect(all[126]).toBe(into[1]);
        expect(all.every((velocity, index) => velocity >= (all[index - 1] ?? 0))).toBe(true);
      }),
    );
    expect(sentVelocity(of([1, 50]), 64)).toBe(26);
  });

  it('moves pitches, but not the keys of articulations, and none beyond what MIDI has', () => {
    const map = readWhole(soft);
    expect(sentPitch(map, map.articulations.get('long'), 60)).toBe(48);
    expect(sentPitch({ ...map, transpose: 5 }, tap(), 60)).toBe(48);
    expect(sentPitch(map, undefined, 5)).toBe(5);
  });

  it('beyond-keys: a note that would leave the keys of MIDI', () => {
    const { bytes, diagnostics } = compile(bytesOf([note(4, 0, 500)]), { maps: { map: soft } });
    expect(bytes).toBeUndefined();
    expect(diagnostics.map(({ code }) => code)).toContain('beyond-keys');
  });

  it('shared-key: two strokes at once on one key', () => {
    const midi = bytesOf([note(60, 0, 100), note(64, 50, 140)]);
    const { diagnostics } = compile(midi, { maps: { map: strokes } });
    expect(diagnostics.map(({ code }) => code)).toEqual(['shared-key']);
  });

  it('note-is-switch: where it would be sent, not where it is written', () => {
    const codesOf = (pitch: number) =>
      compile(bytesOf([note(pitch, 0, 500)]), { maps: { map: soft } }).diagnostics.map(({ code }) => code);
    expect(codesOf(24)).toContain('note-is-switch');
    expect(codesOf(12)).not.toContain('note-is-switch');
  });

  it('already-switched: controllers of the map where it sends them', () => {
    const midi = bytesOf([note(60, 960, 1900), note(64, 2880, 3800)]);
    const first = compile(midi, { maps: { map: strokes } }).bytes;
    const again = first && compile(first, { maps: { map: strokes } });
    expect(again?.bytes).toBeUndefined();
    expect(again?.diagnostics.map(({ code }) => code)).toEqual(['already-switched']);
    const own = bytesOf([note(60, 960, 1900)], [controllerAt(0, 20, 1)]);
    expect(compile(own, { maps: { map: strokes } }).diagnostics.map(({ code }) => code)).toEqual([
      'switch-in-input',
    ]);
  });
});

describe('the proof of what is sent', () => {
  const midi = bytesOf([note(60, 0, 100), note(64, 960, 1900, 20), note(67, 2000, 2900, 110)]);

  it.each([['strokes', strokes] as const, ['soft', soft] as const])('finds nothing wrong: %s', (_, map) => {
    const { bytes } = compile(midi, { maps: { map } });
    expect(bytes && prove(bytes, { maps: { map }, against: midi }).violations).toEqual([]);
  });

  it.each([
    ['another key', strokes, 'noteNumber' as const],
    ['another velocity', soft, 'velocity' as const],
  ])('finds %s', (_, map, field) => {
    const { bytes } = compile(midi, { maps: { map } });
    if (!bytes) throw new Error('not written');
    const song = readMidi(bytes, 'out.mid').value;
    const columns = song?.tracks[0]?.columns;
    if (!song || !columns) throw new Error('not read');
    const melody = Array.from(columns.status.keys()).find(
      (event) => isNoteOn(columns, event) && firstData(columns, event) > 30,
    );
    const at = columns.data[melody ?? -1];
    if (at === undefined) throw new Error('no note');
    const damaged = columns.bytes.slice();
    const place = at + (field === 'velocity' ? 1 : 0);
    damaged[place] = (damaged[place] ?? 0) ^ 1;
    const track = { ...song.tracks[0], columns: { ...columns, bytes: damaged } };
    const written = writeMidi(song, new Map([[1, { events: track.columns }]])).value;
    const found = written && prove(written, { maps: { map }, against: midi });
    expect(found?.violations.length).toBeGreaterThan(0);
  });

  it('agrees with the compiler on random music', () => {
    const anyNote = fc.record({
      pitch: fc.integer({ min: 40, max: 90 }),
      tick: fc.integer({ min: 0, max: 6000 }),
      length: fc.integer({ min: 1, max: 900 }),
      velocity: fc.integer({ min: 1, max: 127 }),
    });
    fc.assert(
      fc.property(
        fc.array(anyNote, { minLength: 1, maxLength: 24 }),
        fc.constantFrom(strokes, soft),
        (all, map) => {
          const music = bytesOf(
            [...all]
              .sort((a, b) => a.tick - b.tick)
              .map(({ pitch, tick, length, velocity }) => note(pitch, tick, tick + length, velocity)),
          );
          const { bytes, diagnostics } = compile(music, { maps: { map } });
          if (!bytes) {
            expect(diagnostics.some(({ severity }) => severity === 'error')).toBe(true);
            return;
          }
          expect(prove(bytes, { maps: { map }, against: music }).violations).toEqual([]);
        },
      ),
      { numRuns: draws(300) },
    );
  });
});

function tap() {
  const found = readWhole(strokes).articulations.get('tap');
  if (!found) throw new Error('no such articulation');
  return found;
}
