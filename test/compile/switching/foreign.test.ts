import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { compile } from '../../../src/compile/index.js';
import { compiled, short, two } from '../../support/compiled.js';
import { controllerAt, songOf, type Timed } from '../../support/song.js';

describe("the part's own controllers and programs in an aspect of the map", () => {
  const map = two('  short: {switch: {program: 5}}\n  long: {switch: {program: 9}}');
  const program = (tick: number, programNumber: number): Timed => ({
    tick,
    event: { type: 'programChange', channel: 0, programNumber } as Timed['event'],
  });
  it('are followed by the switch again, behind them', () => {
    const notes = [
      { tick: 0, end: 100, pitch: 60 },
      { tick: 480, end: 580, pitch: 60 },
      { tick: 960, end: 1060, pitch: 60 },
    ];
    expect(
      short(compiled(map, notes, [program(0, 40), program(470, 41)])).filter((text) =>
        text.includes('program'),
      ),
    ).toEqual(['0 program 40', '0 program 5', '470 program 41', '470 program 5']);
  });
});

describe('a reset of the whole device (General MIDI System On)', () => {
  it('is followed by the switch, behind it', () => {
    const map = two('  short: {switch: {program: 5}}\n  long: {switch: {program: 9}}');
    const reset: Timed = {
      tick: 0,
      event: { type: 'sysEx', data: [0x7e, 0x7f, 0x09, 0x01, 0xf7] } as Timed['event'],
    };
    const other: Timed = { tick: 0, event: { type: 'sysEx', data: [0x7d, 1, 0xf7] } as Timed['event'] };
    const kinds = (event: Timed) =>
      compiled(map, [{ tick: 10, end: 100, pitch: 60 }], [event])
        .map((one) => one.event.type)
        .slice(0, 2);
    expect(kinds(reset)).toEqual(['sysEx', 'programChange']);
    expect(kinds(other)).toEqual(['programChange', 'sysEx']);
  });
});

describe('all notes off in the input', () => {
  it('lets go of a momentary key, which is pressed again before the next note that needs it', () => {
    const map = two('  short: {switch: {note: 0}}\n  long: {}', 'switching: {notes: momentary}');
    const notes = [0, 480].map((tick) => ({ tick, end: tick + 100, pitch: 60 }));
    const keys = short(compiled(map, notes, [controllerAt(300, 123, 0)])).filter((text) =>
      / (on|off) 0$/u.test(text),
    );
    expect(keys).toEqual(['0 on 0', '100 off 0', '461 on 0', '580 off 0']);
    const early = short(compiled(map, notes, [controllerAt(50, 123, 0)])).filter((text) =>
      / (on|off) 0$/u.test(text),
    );
    expect(early).toEqual(['0 on 0', '50 off 0', '461 on 0', '580 off 0']);
  });
});

describe('a program for each note of a chord', () => {
  it('is followed by the switch again, between the notes', () => {
    const map = two('  short: {switch: {program: 5}}\n  long: {switch: {program: 9}}');
    const events = [
      { deltaTime: 480, type: 'programChange', channel: 0, programNumber: 3 },
      { deltaTime: 0, type: 'noteOn', channel: 0, noteNumber: 60, velocity: 80 },
      { deltaTime: 0, type: 'programChange', channel: 0, programNumber: 4 },
      { deltaTime: 0, type: 'noteOn', channel: 0, noteNumber: 48, velocity: 80 },
      { deltaTime: 100, type: 'noteOff', channel: 0, noteNumber: 60, velocity: 0 },
      { deltaTime: 0, type: 'noteOff', channel: 0, noteNumber: 48, velocity: 0 },
    ] as MidiEvent[];
    const { value } = compile(songOf([events]), [{ part: { track: 1, trackName: '', channel: 0 }, map }]);
    const said = (parseMidi(value?.bytes ?? []).tracks[0] ?? []).map((event) =>
      event.type === 'programChange' ? event.programNumber : event.type,
    );
    expect(said).toEqual([3, 5, 'noteOn', 4, 5, 'noteOn', 'noteOff', 'noteOff']);
  });
});
