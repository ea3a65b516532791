import { describe, expect, it } from 'vitest';
import { prove } from '../../src/prove/index.js';
import { songOf, trackOf } from '../support/song.js';
import {
  bend,
  cc,
  fileOf,
  kindsOf,
  library,
  meantNotes,
  note,
  off,
  on,
  program,
  proofOf,
  tap,
} from './events.js';

describe('latching keys', () => {
  const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}']);
  const input = [...note(500, 600, 60), ...note(1000, 1900, 62), ...note(2000, 2900, 64)];
  const meant = [
    [500, 60, 'short'],
    [1000, 62, 'long'],
    [2000, 64, 'long'],
  ] as const;
  const right = [...tap(480, 0), ...tap(980, 1)];

  it('stay until another is struck', () => {
    const proof = proofOf({ map, meant, input, output: [...right, ...input] });
    expect(proof.violations).toEqual([]);
    expect(proof).toMatchObject({ notes: 3, isCompared: true, parts: [{ notes: 3, wrongNotes: 0 }] });
  });

  it('make every note wrong that sounds with another', () => {
    const output = [...tap(480, 0), ...input];
    expect(proofOf({ map, meant, input, output }).violations).toMatchObject([
      { kind: 'wrong-articulation', tick: 1000, bar: 1, beat: 3, pitch: 62, channel: 0, track: 1 },
      { kind: 'wrong-articulation', tick: 2000, bar: 2, beat: 1, pitch: 64 },
    ]);
  });

  it('say nothing before the first is struck', () => {
    const [violation] = proofOf({ map, meant, input, output: [...tap(980, 1), ...input] }).violations;
    expect(violation?.message).toContain('sounds with no articulation of the map, where short is meant');
  });

  it('are struck on their own channel', () => {
    const output = [...tap(480, 0), ...tap(980, 1, 1), ...input];
    expect(kindsOf({ map, meant, output })).toEqual(['wrong-articulation', 'wrong-articulation']);
  });

  it('are struck before the note in the file, where they stand on its tick', () => {
    const behind = [on(500, 60), on(500, 0, 100), off(530, 0), off(600, 60)];
    const before = [on(500, 0, 100), on(500, 60), off(530, 0), off(600, 60)];
    const one = [[500, 60, 'short']] as const;
    expect(kindsOf({ map, meant: one, output: before })).toEqual([]);
    expect(kindsOf({ map, meant: one, output: behind })).toContain('wrong-articulation');
  });
});

describe('momentary keys', () => {
  const map = library(
    ['plain: {}', 'short: {switch: {note: 1}}', 'long: {switch: {note: 2}}'],
    '{notes: momentary}',
  );
  const input = [...note(500, 600, 60), ...note(1000, 1900, 62), ...note(2000, 2900, 64)];
  const meant = [
    [500, 60, 'short'],
    [1000, 62, 'plain'],
    [2000, 64, 'long'],
  ] as const;
  const struck = [on(480, 1, 100), on(1980, 2, 100)];
  /** Both keys are let go behind the notes of the same tick. */
  const letGo = (short: number, long: number) => [off(short, 1), off(long, 2)];

  it('work while they are held; without any, the plain sound is there', () => {
    expect(kindsOf({ map, meant, input, output: [...struck, ...input, ...letGo(600, 2900)] })).toEqual([]);
  });

  it('do nothing any more when they are let go before the note', () => {
    const output = [...struck, ...input, ...letGo(499, 2900)];
    expect(kindsOf({ map, meant, output })).toEqual(['long-key', 'wrong-articulation']);
  });

  it('must be the only ones that are down', () => {
    const output = [...struck, ...input, ...letGo(2500, 2900)];
    expect(proofOf({ map, meant, output }).violations).toMatchObject([
      {
        kind: 'wrong-articulation',
        tick: 1000,
        message: expect.stringContaining('sounds as short, where plain'),
      },
      { kind: 'long-key', tick: 1000, pitch: 1 },
      {
        kind: 'wrong-articulation',
        tick: 2000,
        message: expect.stringContaining('sounds with no articulation'),
      },
    ]);
  });

  it('are let go by all notes off (MIDI 1.0, channel mode message 123)', () => {
    const silenced = [...input, cc(490, 123, 0)];
    const output = [...struck, ...silenced, ...letGo(600, 2900)];
    expect(kindsOf({ map, meant, input: silenced, output })).toEqual(['wrong-articulation']);
  });
});

describe('controllers', () => {
  const map = library([
    'short: {switch: {controller: 20, value: 10}}',
    'long: {switch: {controller: 20, value: 90}}',
  ]);
  const input = [cc(100, 1, 64), ...note(500, 600, 60), ...note(1000, 1900, 62)];
  const meant = [
    [500, 60, 'short'],
    [1000, 62, 'long'],
  ] as const;

  it('hold their last value', () => {
    expect(kindsOf({ map, meant, input, output: [cc(480, 20, 10), cc(980, 20, 90), ...input] })).toEqual([]);
  });

  it('must have the very value', () => {
    const output = [cc(480, 20, 10), cc(980, 20, 91), ...input];
    expect(kindsOf({ map, meant, output })).toEqual(['wrong-articulation']);
    expect(kindsOf({ map, meant, output, input })).toEqual(['added-event', 'wrong-articulation']);
  });

  it('are undone by reset all controllers (MIDI 1.0, channel mode message 121)', () => {
    const reset = [...input, cc(990, 121, 0)];
    expect(
      kindsOf({ map, meant, input: reset, output: [cc(480, 20, 10), cc(980, 20, 90), ...reset] }),
    ).toEqual(['wrong-articulation']);
  });
});

describe('programs and banks', () => {
  const map = library([
    'plucked: {switch: {program: 45}}',
    'bowed: {switch: {program: 48, bank: [1, 2]}}',
    'other: {switch: {program: 48, bank: [1, 3]}}',
  ]);
  const input = [...note(500, 600, 60), ...note(1000, 1900, 62)];
  const meant = [
    [500, 60, 'plucked'],
    [1000, 62, 'bowed'],
  ] as const;
  const bowed = [cc(980, 0, 1), cc(980, 32, 2), program(980, 48)];

  it('take effect together, with the program', () => {
    expect(kindsOf({ map, meant, input, output: [program(480, 45), ...bowed, ...input] })).toEqual([]);
  });

  it('need the right bank', () => {
    const output = [program(480, 45), cc(980, 0, 1), cc(980, 32, 3), program(980, 48), ...input];
    expect(proofOf({ map, meant, output }).violations[0]?.message).toContain(
      'sounds as other, where bowed is meant',
    );
  });

  it('wait for the next program when the bank comes behind it', () => {
    const output = [program(480, 45), program(980, 48), cc(980, 0, 1), cc(980, 32, 2), ...input];
    expect(kindsOf({ map, meant, output })).toEqual(['wrong-articulation']);
  });

  it('without a bank, say nothing about the bank that is there', () => {
    const before = [cc(400, 0, 9), cc(400, 32, 9), program(480, 45)];
    expect(kindsOf({ map, meant, output: [...before, ...bowed, ...input] })).toEqual([]);
  });
});

describe('channels', () => {
  const map = library(['near: {}', 'far: {switch: {channel: 3}}']);
  const input = [cc(100, 1, 64), bend(200, 500), ...note(500, 600, 60), ...note(1000, 1900, 62)];
  const meant = [
    [500, 60, 'near'],
    [1000, 62, 'far'],
  ] as const;
  const copies = [cc(100, 1, 64), cc(100, 1, 64, 2), bend(200, 500), bend(200, 500, 2)];
  const near = note(500, 600, 60);

  it('carry the notes of their articulation, and copies of the part’s controllers and bends', () => {
    expect(kindsOf({ map, meant, input, output: [...copies, ...near, ...note(1000, 1900, 62, 2)] })).toEqual(
      [],
    );
  });

  it('are told from the part’s own', () => {
    const output = [...copies, ...near, ...note(1000, 1900, 62)];
    expect(proofOf({ map, meant, input, output }).violations[0]).toMatchObject({
      kind: 'wrong-articulation',
      message: expect.stringContaining('sounds as near, where far is meant'),
    });
  });

  it('must have the release with its note', () => {
    const output = [...copies, ...near, on(1000, 62, 80, 2), off(1900, 62)];
    expect(kindsOf({ map, meant, input, output })).toEqual(['changed-event']);
  });

  it('have a state of their own each', () => {
    const both = library(['near: {switch: {note: 0}}', 'far: {switch: [{channel: 3}, {note: 1}]}']);
    const music = [...near, ...note(1000, 1900, 62), ...note(2000, 2900, 64)];
    const output = [
      ...tap(480, 0),
      ...tap(980, 1, 2),
      ...near,
      ...note(1000, 1900, 62, 2),
      ...note(2000, 2900, 64),
    ];
    const all = [...meant, [2000, 64, 'near']] as const;
    expect(kindsOf({ map: both, meant: all, input: music, output })).toEqual([]);
  });
});

describe('named aspects', () => {
  const map = library([
    'open: {switch: [{note: 0}, {note: 10, aspect: mute}]}',
    'muted: {switch: [{note: 0}, {note: 11, aspect: mute}]}',
    'muted-short: {switch: [{note: 1}, {note: 11, aspect: mute}]}',
  ]);
  const input = [...note(500, 600, 60), ...note(1000, 1900, 62), ...note(2000, 2900, 64)];
  const meant = [
    [500, 60, 'open'],
    [1000, 62, 'muted'],
    [2000, 64, 'muted-short'],
  ] as const;

  it('are independent of one another', () => {
    const output = [...tap(480, 0), ...tap(480, 10), ...tap(980, 11), ...tap(1980, 1), ...input];
    expect(kindsOf({ map, meant, input, output })).toEqual([]);
  });

  it('are wrong one by one', () => {
    const output = [
      ...tap(480, 0),
      ...tap(480, 10),
      ...tap(980, 11),
      ...tap(1980, 10),
      ...tap(1980, 1),
      ...input,
    ];
    expect(kindsOf({ map, meant, output })).toEqual(['other-switch', 'wrong-articulation']);
  });

  it('of momentary keys are held beside those of the plain aspect', () => {
    const held = library(
      ['plain: {}', 'short: {switch: {note: 1}}', 'fast: {switch: [{note: 1}, {note: 2, aspect: speed}]}'],
      '{notes: momentary}',
    );
    const wanted = [
      [500, 60, 'short'],
      [1000, 62, 'fast'],
      [2000, 64, 'plain'],
    ] as const;
    const struck = [on(480, 1, 100), on(980, 1, 100), on(980, 2, 100)];
    const letGo = (speed: number) => [off(600, 1), off(1900, 1), off(speed, 2)];
    const kinds = (speed: number) =>
      kindsOf({ map: held, meant: wanted, input, output: [...struck, ...input, ...letGo(speed)] });
    expect(kinds(1900)).toEqual([]);
    expect(kinds(2900)).toEqual(['long-key']);
  });
});

describe('mixed messages', () => {
  const map = library([
    'one: {switch: [{program: 40}, {controller: 20, value: 1}, {note: 0}]}',
    'two: {switch: [{program: 40}, {controller: 20, value: 2}, {note: 1}]}',
  ]);
  const input = [...note(500, 600, 60), ...note(1000, 1900, 62)];
  const meant = [
    [500, 60, 'one'],
    [1000, 62, 'two'],
  ] as const;
  const first = [program(480, 40), cc(480, 20, 1), ...tap(480, 0)];

  it('must all be right', () => {
    expect(
      kindsOf({ map, meant, input, output: [...first, cc(980, 20, 2), ...tap(980, 1), ...input] }),
    ).toEqual([]);
  });

  it('are wrong where one is', () => {
    expect(kindsOf({ map, meant, input, output: [...first, cc(980, 20, 2), ...input] })).toEqual([
      'wrong-articulation',
    ]);
    expect(kindsOf({ map, meant, input, output: [...first, ...tap(980, 1), ...input] })).toEqual([
      'wrong-articulation',
    ]);
  });
});

describe('parts', () => {
  it('of one track are heard by themselves', () => {
    const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}']);
    const input = [...note(500, 900, 60, 0), ...note(500, 900, 72, 1)];
    const output = fileOf([...tap(480, 0, 0), ...tap(480, 1, 1), ...input]);
    const part = (channel: number, pitch: number, articulation: string) => ({
      part: { track: 1, trackName: '', channel },
      map,
      meant: meantNotes([[500, pitch, articulation]]),
    });
    const parts = [part(0, 60, 'short'), part(1, 72, 'long')];
    expect(prove({ output, input: fileOf(input), parts }).violations).toEqual([]);
    const swapped = [part(0, 60, 'long'), part(1, 72, 'short')];
    const wrong = prove({ output, parts: swapped }).violations.filter(
      ({ kind }) => kind === 'wrong-articulation',
    );
    expect(wrong.map(({ channel }) => channel)).toEqual([0, 1]);
  });

  it('of a track that is not there are reported', () => {
    const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}']);
    const parts = [{ part: { track: 3, trackName: '', channel: 0 }, map, meant: meantNotes([]) }];
    expect(prove({ output: songOf([trackOf([])]), parts }).violations).toMatchObject([
      { kind: 'changed-file', track: 3 },
    ]);
  });
});
