import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Note } from 'tonal';
import { describe, expect, it } from 'vitest';
import { type CompiledCue, compileCue, mapsOf } from '../../src/cue/index.js';
import { readCue } from '../../src/cue/read/index.js';
import { readMap } from '../../src/map/read/index.js';
import { readMidi } from '../../src/midi/read/index.js';
import { nameOfFifths } from '../../src/music/harmony/fifths.js';
import { harmonyOf } from '../../src/music/harmony/index.js';
import { sheetOf } from '../../src/sheet/collect.js';
import { scoreOf } from '../../src/sheet/score.js';
import { decisionsIn } from '../support/decided.js';
import { eventsOf } from '../support/events.js';
import { sheetNote, sheetPart } from './page/support.js';

const folder = 'maps/demo';
const bytesOf = (name: string) => new Uint8Array(readFileSync(join(folder, name)));

/** The demo's cue, compiled. */
function demo(): CompiledCue {
  const { value: cue } = readCue(bytesOf('skerry-point.cue.yaml'), 'skerry-point.cue.yaml');
  const { value: song } = readMidi(bytesOf('skerry-point.mid'), 'skerry-point.mid');
  if (!cue || !song) throw new Error('the demo cannot be read');
  const maps = mapsOf(cue).flatMap(({ text }) => {
    const { value } = readMap(bytesOf(text), text);
    return value ? [[text, value] as const] : [];
  });
  const { value } = compileCue(cue, { song, maps: new Map(maps) });
  if (!value) throw new Error('the demo does not compile');
  return value;
}

const { parts, tracks, planned } = demo();
const jobs = parts.map((compiled, index) => {
  const { name = '', layer, doubles } = planned.jobs[index] ?? {};
  return { compiled, name, ...(layer === undefined ? {} : { layer }), ...(doubles ? { doubles } : {}) };
});
const warning = {
  code: 'note-out-of-range',
  severity: 'warning',
  message: 'the note is odd',
  place: { kind: 'music', file: 'a.mid', track: 3, trackName: 'Trumpets', bar: 5, beat: 1, tick: 1920 * 4 },
} as const;
const sheet = sheetOf({ title: 'T', song: planned.song, tracks, jobs, diagnostics: [warning] });

describe('what a sheet is made of', () => {
  it('has the parts of the cue, each with its layers', () => {
    expect(sheet.parts.map(({ name }) => name)).toEqual([
      'Horns',
      'Trumpets',
      'Violins, upper desks',
      'Violins, lower desks',
      'Drums',
    ]);
    expect(sheet.parts.map(({ layers }) => layers.length)).toEqual([1, 0, 0, 0, 0]);
  });

  it('marks exactly the notes that the layer plays', () => {
    const [horns] = sheet.parts;
    const layered = horns?.notes.filter(({ layers }) => layers.includes('bite')) ?? [];
    const played = decisionsIn(jobs.find(({ layer }) => layer === 'bite')?.compiled);
    expect(layered.map(({ pitch }) => pitch)).toEqual(played.map(({ note }) => note.pitch));
    // The cue asks for velocities from 96 and pitches from 45, as they were played.
    const decided = decisionsIn(jobs[0]?.compiled).map(({ note }) => note) ?? [];
    const asked = decided.filter(({ velocity, pitch }) => velocity >= 96 && pitch >= 45);
    expect(layered.map(({ tick }) => tick)).toEqual(asked.map(({ tick }) => tick));
  });

  it('has velocities as they are in the output', () => {
    for (const { notes, track, channel } of sheet.parts) {
      const written = eventsOf(tracks.get(track)).flatMap(({ event }) =>
        event.type === 'noteOn' && event.channel === channel ? [event.velocity] : [],
      );
      expect(notes.map(({ velocity }) => velocity).sort()).toEqual(written.sort());
    }
  });

  it('has each switch once, before its note by the lead of the map or a tick more', () => {
    const [horns] = sheet.parts;
    const own = horns?.switches.filter(({ layer }) => layer === undefined) ?? [];
    const ticks = new Set(jobs[0]?.compiled.switched.switchTicks.filter((tick) => tick !== null));
    expect(own.map(({ tick }) => tick)).toEqual([...ticks].sort((a, b) => a - b));
    for (const { leadMs } of own) expect(leadMs).toBeGreaterThanOrEqual(25);
    expect(own.every(({ sent }) => /^[A-G]#?-2$/u.test(sent))).toBe(true);
  });

  it('leaves percussion out of the harmony, and has it in the music', () => {
    const drums = sheet.parts.find(({ family }) => family === 'percussion');
    expect(drums?.notes.length).toBeGreaterThan(0);
    const pitched = sheet.parts.filter(({ family }) => family !== 'percussion');
    const pitches = new Set(pitched.flatMap(({ notes }) => notes.map(({ pitch }) => pitch)));
    expect(sheet.harmony.filter(({ bass }) => !pitches.has(bass))).toEqual([]);
    const last = Math.max(...pitched.flatMap(({ notes }) => notes.map(({ endTick }) => endTick)));
    expect(sheet.harmony.every(({ tick }) => tick < last)).toBe(true);
  });

  it('numbers what it has to tell, warnings first', () => {
    const [first, ...others] = sheet.remarks;
    expect(first).toMatchObject({ kind: 'warning', sign: '▲1', part: 1, bar: 5 });
    expect(first?.text).toContain('the note is odd [note-out-of-range]');
    expect(others.map(({ sign }) => sign)).toEqual(others.map((_, index) => `△${index + 2}`));
    const bars = others.map(({ bar = 0 }) => bar);
    expect(bars).toEqual([...bars].sort((a, b) => a - b));
  });
});

describe('the score of a sheet', () => {
  const score = scoreOf(sheet);

  it('has nothing above its staves but signs of remarks: articulations stand in the lanes', () => {
    const texts = score.staves.flatMap(({ words }) => words.map(({ text }) => text));
    expect(texts.length).toBeGreaterThan(0);
    expect(texts.filter((text) => !/^(?:[▲△]\d+ ?)+$/u.test(text))).toEqual([]);
  });

  it('has no character in a label that a page would obey', () => {
    const part = sheetPart({ name: 'Horns\u202e\u0007<b>' });
    const [staff] = scoreOf({ ...sheet, parts: [part], remarks: [] }).staves;
    expect(staff?.label).toBe('Horns\\u{202e}\\u{7}<b>');
  });

  it('writes timpani at their pitches, also where the library is one of percussion', () => {
    const isWritten = (name: string, instrument: string, family = 'percussion') =>
      scoreOf({ ...sheet, parts: [sheetPart({ name, instrument, family })], remarks: [] }).staves[0]
        ?.percussion;
    expect(isWritten('Timpani', 'Battery')).toBeUndefined();
    expect(isWritten('Pauken', 'Battery')).toBeUndefined();
    expect(isWritten('Low drums', 'Timpani')).toBeUndefined();
    expect(isWritten('Bass Drum', 'Battery')).toBe(true);
    expect(isWritten('Horns', 'Horns', 'brass')).toBeUndefined();
  });

  it('has the sign of a remark at the first note from its tick on', () => {
    const signed = score.staves[1]?.words.find(({ text }) => text.includes('▲1'));
    const note = sheet.parts[1]?.notes.find(({ tick }) => tick >= 1920 * 4);
    expect(signed?.id).toBe(note?.id);
  });

  it('spells notes as their chord does: a fourth of flats in C minor is F sharp in D7', () => {
    // II7 V7 i in C minor, two beats each; spelled by hand.
    const chords = [
      ['D3', 'F#4', 'A4', 'C5'],
      ['G2', 'F4', 'G4', 'B4'],
      ['C3', 'Eb4', 'G4', 'C5'],
      ['Ab2', 'Eb4', 'Ab4', 'C5'],
    ];
    const written = chords.flatMap((names, index) =>
      names.map((name) => {
        const pitch = Note.midi(name) ?? 0;
        const tick = index * 960 - 10;
        return {
          name,
          note: { ...sheetNote(`${index}${name}`, Math.max(0, tick)), endTick: tick + 950, pitch },
        };
      }),
    );
    const notes = written.map(({ note }) => note);
    const sounding = notes.map((note) => ({ ...note, part: 0 }));
    const harmony = harmonyOf(sounding, sheet.clock, { per: 'found' });
    const part = sheetPart({ notes });
    const [staff] = scoreOf({ ...sheet, parts: [part], harmony, remarks: [] }).staves;
    const names = staff?.notes.map(({ fifths = 0 }) =>
      nameOfFifths(fifths).replace('♯', '#').replace('♭', 'b'),
    );
    expect(names).toEqual(written.map(({ name }) => Note.pitchClass(name)));
  });

  it('has chords only where they change', () => {
    const texts = score.chords.map(({ text }) => text);
    expect(texts.length).toBeGreaterThan(3);
    expect(texts.every((text, index) => text !== texts[index - 1])).toBe(true);
  });
});
