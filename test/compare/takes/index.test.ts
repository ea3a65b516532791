import { describe, expect, it } from 'vitest';
import { compareTakes, isOtherwise, type Take } from '../../../src/compare/index.js';
import { partsOf } from '../../../src/compile/analyse/index.js';
import { compileParts } from '../../../src/compile/index.js';
import type { Song } from '../../../src/midi/song.js';
import { takesText } from '../../../src/report/takes-text.js';
import { ladderMap, mapOf } from '../../support/map.js';
import { songOf, type TestNote, type Timed, trackOf } from '../../support/song.js';

const map = mapOf(ladderMap);

function takeOf(song: Song, by = map): Take {
  const jobs = song.tracks.flatMap(partsOf).map((part) => ({ part, map: by }));
  const parts = compileParts(song, jobs).parts.map((part) => {
    const name = part.part.trackName;
    return { key: `${name} ${part.part.channel}`, name, part };
  });
  return { song, parts };
}

/** 480 ticks are a quarter at 120 bpm, 500 ms; a bar of 4/4 has 1920. */
const line = (...ticks: readonly number[]): readonly TestNote[] =>
  ticks.map((tick) => ({ tick, end: tick + 96, pitch: 60 }));
const song = (notes: readonly TestNote[], others: readonly Timed[] = [], name = 'Horns') =>
  songOf([trackOf(notes, others, name)]);
const bars = (count: number, ...shape: readonly number[]) =>
  Array.from({ length: count }, (_, bar) =>
    (shape.length > 0 ? shape : [0, 480, 960]).map((at) => bar * 1920 + at),
  ).flat();

const compared = (first: Song, second: Song) => compareTakes(takeOf(first), takeOf(second));

describe('two takes', () => {
  it('differ in nothing where they are one', () => {
    const one = song(line(...bars(4)));
    const same = compared(one, one);
    expect(isOtherwise(same)).toBe(false);
    expect(takesText(same, false)).toBe('Nothing changed: 12 notes in 1 part, and all other events.');
  });

  it('differ in the notes that only one has, and in nothing else', () => {
    const found = compared(
      song(line(...bars(4))),
      song(line(...bars(4).filter((tick) => tick !== 2400), 3400)),
    );
    expect(found.parts).toMatchObject([
      {
        lone: [
          { take: 'first', tick: 2400, bar: 2, beat: 2, pitch: 60 },
          { take: 'second', tick: 3400, bar: 2, pitch: 60 },
        ],
        altered: [],
        same: 11,
      },
    ]);
    expect(found.events).toEqual([]);
    expect(takesText(found, false).split('\n')).toEqual([
      'Track 1 "Horns", channel 1:',
      '  bar 2: 1 note removed (C4), 1 note added (C4)',
      '',
      'Nothing else changed: 11 notes are as they were, 0 of 1 part in every note, and so are all other events.',
    ]);
  });

  it('differ in place, length and velocity of a note that both have, and in what it gets', () => {
    const notes = line(...bars(2));
    const other = notes.map((note, index) =>
      index === 1 ? { ...note, tick: note.tick + 20, end: note.end + 220, velocity: 100 } : note,
    );
    const [part] = compared(song(notes), song(other)).parts;
    // 96 ticks are 100 ms: short; 296 are 308.333 ms: medium, below 320.
    expect(part).toMatchObject({
      lone: [],
      altered: [
        {
          tick: 500,
          moved: 20,
          held: { from: 100, to: 308.333 },
          velocity: { from: 80, to: 100 },
          decided: { from: { articulation: 'short' }, to: { articulation: 'medium' } },
        },
        // The note behind it is short as before, and needs a switch now.
        { tick: 960, sent: ['switch'] },
      ],
      same: 4,
    });
  });

  it('are laid over each other bar by bar: a longer bar moves nothing behind it', () => {
    const signature = (tick: number, numerator: number): Timed => ({
      tick,
      event: {
        type: 'timeSignature',
        numerator,
        denominator: 4,
        metronome: 24,
        thirtyseconds: 8,
      } as Timed['event'],
    });
    const first = song(line(...bars(4)));
    // Bar 2 is 5/4: the bars behind it begin 480 ticks later.
    const longer = line(...bars(4).map((tick) => (tick >= 3840 ? tick + 480 : tick)));
    const second = song(longer, [signature(1920, 5), signature(4320, 4)]);
    const found = compared(first, second);
    expect(found.parts).toMatchObject([{ lone: [], altered: [], same: 12 }]);
    expect(found.events).toMatchObject([{ kind: 'time signature', removed: 0, added: 2 }]);
    // A time signature alone counts bars anew, and moves no note.
    expect(compared(first, song(line(...bars(4)), [signature(0, 3)])).parts).toMatchObject([
      { lone: [], altered: [], same: 12 },
    ]);
  });

  it('are laid over each other with the bars that were put in, or taken out', () => {
    const shape = [...bars(2), ...bars(3, 0, 720, 1200).map((tick) => tick + 3840)];
    const inserted = [...bars(2), 3840, 4560, ...bars(3, 0, 720, 1200).map((tick) => tick + 5760)];
    const [before, after] = [song(line(...shape)), song(line(...inserted))];
    const found = compared(before, after);
    expect(found.shift).toEqual({ after: 2, bars: 1 });
    expect(found.parts[0]?.same).toBe(15);
    expect(found.parts[0]?.lone.map(({ take, bar }) => [take, bar])).toEqual([
      ['second', 3],
      ['second', 3],
    ]);
    expect(takesText(found, true)).toContain('1 bar put in behind bar 2; what follows is compared');
    const back = compared(after, before);
    expect(back.shift).toEqual({ after: 2, bars: -1 });
    expect(back.parts[0]?.same).toBe(15);
    expect(takesText(back, true)).toContain('1 bar taken out behind bar 2');
  });

  it('are one whatever resolution they count in', () => {
    const notes = line(...bars(3));
    const fine = notes.map((note) => ({ ...note, tick: note.tick * 2, end: note.end * 2 }));
    const found = compared(song(notes), songOf([trackOf(fine, [], 'Horns')], { ppq: 960 }));
    expect(isOtherwise(found)).toBe(false);
  });

  it('are compared by real time where one counts frames', () => {
    const smpte = { smpte: { framesPerSecond: 25, ticksPerFrame: 40 } };
    const notes = [0, 500, 1000].map((tick) => ({ tick, end: tick + 100, pitch: 60 }));
    const moved = notes.map((note, index) => (index === 1 ? { ...note, tick: 540, end: 640 } : note));
    const found = compared(
      songOf([trackOf(notes, [], 'Horns')], smpte),
      songOf([trackOf(moved, [], 'Horns')], smpte),
    );
    expect(found.parts).toMatchObject([
      { lone: [], altered: [{ tick: 540, bar: null, moved: 40 }], same: 2 },
    ]);
    expect(takesText(found, true)).toContain('  anywhere: 1 note played otherwise (C4: place)');
  });

  it('differ in controllers and other events, told by track, kind and bars', () => {
    const controller = (tick: number, value: number): Timed => ({
      tick,
      event: { type: 'controller', channel: 0, controllerType: 1, value } as Timed['event'],
    });
    const tempo = (microsecondsPerBeat: number): Timed => ({
      tick: 3840,
      event: { type: 'setTempo', meta: true, microsecondsPerBeat } as Timed['event'],
    });
    const notes = line(...bars(4));
    const found = compared(
      song(notes, [controller(0, 10), controller(1920, 20), controller(1920, 20), tempo(500_000)]),
      song(notes, [controller(0, 10), controller(1920, 30), controller(5760, 5), tempo(400_000)]),
    );
    expect(found.events).toEqual([
      {
        track: 1,
        name: 'Horns',
        kind: 'controller 1',
        bars: [
          { from: 2, to: 2 },
          { from: 4, to: 4 },
        ],
        removed: 2,
        added: 2,
      },
      { track: 1, name: 'Horns', kind: 'tempo', bars: [{ from: 3, to: 3 }], removed: 1, added: 1 },
    ]);
    expect(takesText(found, true)).toContain(
      '  track 1 "Horns": controller 1 in bars 2, 4: 2 removed, 2 added',
    );
  });

  it('may have parts that the other has not, and notes that nobody decided', () => {
    const [horns, oboe] = [trackOf(line(0, 480), [], 'Horns'), trackOf(line(0), [], 'Oboe')];
    const found = compared(songOf([horns]), songOf([horns, oboe]));
    expect(found.parts.map(({ name, only }) => [name, only])).toEqual([
      ['Horns', undefined],
      ['Oboe', 'second'],
    ]);
    const both = songOf([horns, oboe]);
    const later = songOf([horns, trackOf(line(480), [], 'Oboe')]);
    const hornsOf = (of: Song): Take => ({ song: of, parts: takeOf(of).parts.slice(0, 1) });
    expect(compareTakes(hornsOf(both), hornsOf(later)).events).toMatchObject([
      { track: 2, name: 'Oboe', kind: 'notes', removed: 2, added: 2 },
    ]);
  });

  it('are sent otherwise where only the way to the library is another', () => {
    const one = song(line(...bars(2)));
    const changed = takeOf(one, { ...map, transpose: -12 });
    const [part] = compareTakes(takeOf(one), changed).parts;
    expect(part?.altered.map(({ sent }) => sent)).toEqual(Array.from({ length: 6 }, () => ['key']));
  });
});
