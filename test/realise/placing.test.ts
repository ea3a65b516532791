import fc from 'fast-check';
import { type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { compile } from '../../src/compile/index.js';
import type { ArticulationMap } from '../../src/model/map.js';
import { mapOfMethod, methods, randomLine } from '../support/arbitrary.js';
import { mapOf } from '../support/map.js';
import {
  bytesOf,
  controllerAt,
  songOf,
  type TestNote,
  type Timed,
  tempoAt,
  trackOf,
} from '../support/song.js';

interface Event {
  readonly tick: number;
  readonly event: MidiEvent;
}

/** The compiled events of a one-track song, as `midi-file` reads them. */
function compiled(
  map: ArticulationMap,
  notes: readonly TestNote[],
  others: readonly Timed[] = [],
): readonly Event[] {
  const song = songOf([trackOf(notes, others)]);
  const { value, diagnostics } = compile(song, [{ part: { track: 1, trackName: '', channel: 0 }, map }]);
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  let tick = 0;
  return (parseMidi(value.bytes).tracks[0] ?? []).map((event) => {
    tick += event.deltaTime;
    return { tick, event };
  });
}

/** Events in short: `0 on 24`, `20 off 24`, `0 cc 20=8`, `0 program 48`. */
function short(events: readonly Event[]): readonly string[] {
  return events.flatMap(({ tick, event }) => {
    if (event.type === 'noteOn') return [`${tick} on ${event.noteNumber}`];
    if (event.type === 'noteOff') return [`${tick} off ${event.noteNumber}`];
    if (event.type === 'controller') return [`${tick} cc ${event.controllerType}=${event.value}`];
    return event.type === 'programChange' ? [`${tick} program ${event.programNumber}`] : [];
  });
}

const two = (switches: string, more = '') =>
  mapOf(`${more}
articulations:
${switches}
rules:
  - when: {held: {below: 200ms}}
    use: short
  - use: long
`);

// At ppq 480 and 120 bpm: 20 ms are 19.2 ticks, 30 ms are 28.8.
const latching = two('  short: {switch: {note: 0}}\n  long: {switch: {note: 2}}');
const momentary = two('  short: {switch: {note: 0}}\n  long: {}', 'switching: {notes: momentary}');

describe('where switches are put', () => {
  it('before the note by the lead, tapped for the tap', () => {
    expect(short(compiled(latching, [{ tick: 480, end: 580, pitch: 60 }]))).toEqual([
      '461 on 0',
      '480 on 60',
      '490 off 0',
      '580 off 60',
    ]);
  });

  it('at tick 0 before the note', () => {
    expect(short(compiled(latching, [{ tick: 0, end: 100, pitch: 60 }]))).toEqual([
      '0 on 0',
      '0 on 60',
      '29 off 0',
      '100 off 60',
    ]);
  });

  it('one tick after the previous onset where the lead would reach it', () => {
    const notes = [
      { tick: 480, end: 500, pitch: 60 },
      { tick: 520, end: 1000, pitch: 62 },
      { tick: 1000, end: 1010, pitch: 64 },
    ];
    const wide = two(
      '  short: {switch: {note: 0}}\n  long: {switch: {note: 2}}',
      'switching: {lead: 500ms, tap: 1ms}\nchord-window: 0ms',
    );
    expect(short(compiled(wide, notes)).filter((text) => / on [02]$/u.test(text))).toEqual([
      '0 on 0',
      '481 on 2',
      '521 on 0',
    ]);
  });

  it('only where something changes', () => {
    const notes = [100, 100, 400, 400, 100].map((length, index) => ({
      tick: 480 * (index + 1),
      end: 480 * (index + 1) + length,
      pitch: 60,
    }));
    expect(short(compiled(latching, notes)).filter((text) => / on [02]$/u.test(text))).toEqual([
      '461 on 0',
      '1421 on 2',
      '2381 on 0',
    ]);
  });

  it('behind the note-offs of its tick, and before everything else there', () => {
    const slow = two('  short: {switch: {note: 0}}\n  long: {switch: {note: 2}}', 'switching: {lead: 0ms}');
    const notes = [
      { tick: 0, end: 480, pitch: 60 },
      { tick: 480, end: 580, pitch: 62 },
    ];
    const events = short(compiled(slow, notes, [controllerAt(480, 1, 64)]));
    expect(events.filter((text) => text.startsWith('480 '))).toEqual([
      '480 off 60',
      '480 on 0',
      '480 cc 1=64',
      '480 on 62',
    ]);
  });

  it('in the order of the map where there are several messages', () => {
    const map = two(
      '  short: {switch: [{note: 0}, {controller: 68, value: 127}, {program: 5, bank: [1, 2]}]}\n  long: {switch: {note: 2}}',
    );
    expect(short(compiled(map, [{ tick: 480, end: 580, pitch: 60 }])).slice(0, 5)).toEqual([
      '461 on 0',
      '461 cc 68=127',
      '461 cc 0=1',
      '461 cc 32=2',
      '461 program 5',
    ]);
  });
});

describe('latching keys', () => {
  it('end their tap where the same key is struck again', () => {
    const map = two(
      '  short: {switch: {note: 0}}\n  long: {switch: {note: 2}}',
      'switching: {lead: 10ms, tap: 2s}',
    );
    const notes = [100, 400, 100].map((length, index) => ({
      tick: 480 * index,
      end: 480 * index + length,
      pitch: 60,
    }));
    expect(short(compiled(map, notes)).filter((text) => / (on|off) 0$/u.test(text))).toEqual([
      '0 on 0',
      '950 off 0',
      '950 on 0',
      '1060 off 0',
    ]);
  });

  it('never outlast the track: the end of track stays where it was', () => {
    const events = compiled(latching, [{ tick: 480, end: 481, pitch: 60 }]);
    expect(events.at(-1)).toMatchObject({ tick: 481, event: { type: 'endOfTrack' } });
    expect(short(events)).toEqual(['461 on 0', '480 on 60', '481 off 0', '481 off 60']);
  });
});

describe('momentary keys', () => {
  const lengths = (...of: number[]) =>
    of.map((length, index) => ({ tick: 480 * index, end: 480 * index + length, pitch: 60 }));
  const keys = (events: readonly Event[]) => short(events).filter((text) => / (on|off) 0$/u.test(text));

  it('are held through a stretch of notes that need them, until the last is released', () => {
    expect(keys(compiled(momentary, lengths(100, 120, 400)))).toEqual(['0 on 0', '600 off 0']);
  });

  it('are released before the first onset that needs another articulation', () => {
    const joined = [
      { tick: 0, end: 150, pitch: 60 },
      { tick: 140, end: 600, pitch: 62 },
    ];
    expect(keys(compiled(momentary, joined))).toEqual(['0 on 0', '121 off 0']);
  });

  it('are released with the last note of the track', () => {
    expect(keys(compiled(momentary, lengths(400, 100)))).toEqual(['461 on 0', '580 off 0']);
  });
});

describe('switches that are sent again', () => {
  const notes = [0, 480, 960, 3840, 4320].map((tick) => ({ tick, end: tick + 100, pitch: 60 }));
  const sent = (restate: string) => {
    const map = two(
      '  short: {switch: {note: 0}}\n  long: {switch: {note: 2}}',
      `switching: {restate: ${restate}}`,
    );
    return short(compiled(map, notes)).filter((text) => / on 0$/u.test(text));
  };
  it('are none by default', () => {
    expect(sent('{}')).toEqual(['0 on 0']);
  });
  it('follow a rest, from the length given', () => {
    // The rest before the note at 3840 is 2780 ticks: 2895.8 ms.
    expect(sent('{after-rest: 2895ms}')).toEqual(['0 on 0', '3821 on 0']);
    expect(sent('{after-rest: 2896ms}')).toEqual(['0 on 0']);
  });
  it('follow after a number of bars', () => {
    expect(sent('{every-bars: 2}')).toEqual(['0 on 0', '3821 on 0']);
    expect(sent('{every-bars: 3}')).toEqual(['0 on 0']);
  });
});

describe("the part's own controllers and programs in a slot of the map", () => {
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

describe('channels', () => {
  const map = two('  short: {switch: {channel: 3}}\n  long: {switch: {channel: 4}}');
  it("take the notes, and a copy of the part's controllers", () => {
    const events = compiled(
      map,
      [
        { tick: 0, end: 100, pitch: 60 },
        { tick: 480, end: 900, pitch: 62 },
      ],
      [controllerAt(50, 1, 99)],
    );
    const seen = events.flatMap(({ event }) =>
      'channel' in event ? [`${event.type} ${event.channel + 1}`] : [],
    );
    expect(seen).toEqual([
      'noteOn 3',
      'controller 1',
      'controller 3',
      'controller 4',
      'noteOff 3',
      'noteOn 4',
      'noteOff 4',
    ]);
  });
});

describe('for random lines and maps of every method', () => {
  for (const [index, method] of methods.entries())
    it(`no switch sounds at or before the previous onset of its channel, none after its note: ${method}`, () => {
      fc.assert(
        fc.property(mapOfMethod(method), randomLine, (map, line) => {
          const song = songOf([trackOf(line, [tempoAt(0, 100)])]);
          const { value } = compile(song, [{ part: { track: 1, trackName: '', channel: 0 }, map }]);
          const [part] = value?.parts ?? [];
          if (!value || !part) throw new Error('nothing compiled');
          const { decisions, realised, line: measured } = part;
          decisions.forEach(({ note, articulation }, at) => {
            const tick = realised.switchTicks[at] ?? null;
            if (tick === null) return;
            const isOfChannel = (name: string) => method !== 'channel' || name === articulation;
            const before = decisions.filter(
              (other) => other.note.onset < note.onset && isOfChannel(other.articulation),
            );
            expect(tick).toBeGreaterThan(Math.max(-1, ...before.map((other) => other.note.tick)));
            expect(tick).toBeLessThanOrEqual(measured.onsets[note.onset]?.tick ?? -1);
          });
        }),
        { seed: 400 + index, numRuns: 40 },
      );
    });

  it('compiling twice gives the same bytes', () => {
    fc.assert(
      fc.property(fc.constantFrom(...methods).chain(mapOfMethod), randomLine, (map, line) => {
        const once = () =>
          compile(songOf([trackOf(line)]), [{ part: { track: 1, trackName: '', channel: 0 }, map }]).value
            ?.bytes;
        expect(once()).toEqual(once());
        expect(once()?.length).toBeGreaterThan(bytesOf([trackOf(line)]).length - 1);
      }),
      { seed: 410, numRuns: 40 },
    );
  });
});
