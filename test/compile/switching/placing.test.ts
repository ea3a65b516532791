import { describe, expect, it } from 'vitest';
import { compiled, type Event, short, two } from '../../support/compiled.js';
import { controllerAt } from '../../support/song.js';

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
