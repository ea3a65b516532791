import { describe, expect, it } from 'vitest';
import { cc, kindsOf, library, note, off, on, program, proofOf, tap } from '../events.js';

const map = library(['short: {switch: {note: 0}}', 'long: {switch: {note: 1}}'], '{lead: 20ms}');
const meant = [
  [500, 60, 'short'],
  [1000, 62, 'long'],
] as const;
const joined = [...note(500, 1100, 60), ...note(1000, 1400, 62)];
const detached = [...note(500, 600, 60), ...note(1000, 1400, 62)];

describe('touched-note, while a note sounds', () => {
  it('a switch may come the lead before its note, and a tick more for rounding', () => {
    for (const tick of [979, 980, 999, 1000])
      expect(kindsOf({ map, meant, output: [...tap(480, 0), ...tap(tick, 1), ...joined] })).toEqual([]);
  });

  it('no earlier', () => {
    const proof = proofOf({ map, meant, output: [...tap(480, 0), ...tap(978, 1), ...joined] });
    expect(proof.violations).toMatchObject([{ kind: 'touched-note', tick: 978, pitch: 1 }]);
    expect(proof.violations[0]?.message).toContain('comes 22 ticks before its note');
  });

  it('none may come behind the last note', () => {
    const output = [...tap(480, 0), ...tap(980, 1), ...joined, ...tap(1200, 0)];
    expect(kindsOf({ map, meant, output })).toEqual(['touched-note', 'other-switch']);
  });
});

describe('touched-note, in silence', () => {
  it('a switch may come as early as it likes', () => {
    expect(kindsOf({ map, meant, output: [...tap(480, 0), ...tap(700, 1), ...detached] })).toEqual([]);
  });

  it('but not on the tick of the note before', () => {
    const staccato = [on(500, 60), off(500, 60), ...tap(500, 1), ...note(1000, 1400, 62)];
    expect(kindsOf({ map, meant, output: [...tap(480, 0), ...staccato] })).toEqual(['touched-note']);
    expect(
      kindsOf({
        map,
        meant,
        output: [...tap(480, 0), on(500, 60), off(500, 60), ...tap(501, 1), ...note(1000, 1400, 62)],
      }),
    ).toEqual([]);
  });
});

describe('touched-note, in a chord', () => {
  const chord = [
    [500, 60, 'short'],
    [520, 64, 'short'],
  ] as const;

  it('is told between notes that are struck together and sound alike', () => {
    const output = [...tap(480, 0), ...tap(510, 0, 0, 515), ...note(500, 900, 60), ...note(520, 900, 64)];
    expect(kindsOf({ map, meant: chord, output })).toContain('touched-note');
  });

  it('is not told where the music itself set the program anew in between', () => {
    const programs = library(['one: {switch: {program: 40}}', 'two: {switch: {program: 41}}']);
    const input = [...note(500, 900, 60), program(500, 9), ...note(500, 900, 64)];
    const output = [
      program(480, 40),
      on(500, 60),
      program(500, 9),
      program(500, 40),
      on(500, 64),
      off(900, 60),
      off(900, 64),
    ];
    const struck = [input[0], input[2], input[3], input[1], input[4]].flatMap((event) => event ?? []);
    const meantOne = [
      [500, 60, 'one'],
      [500, 64, 'one'],
    ] as const;
    expect(kindsOf({ map: programs, meant: meantOne, input: struck, output })).toEqual([]);
    const without = output.filter(({ event }) => !('programNumber' in event && event.programNumber === 9));
    const musicWithout = struck.filter(({ event }) => event.type !== 'programChange');
    expect(kindsOf({ map: programs, meant: meantOne, input: musicWithout, output: without })).toEqual([
      'touched-note',
    ]);
  });

  it('is told for controllers only against an input, since they may be the player’s own', () => {
    const controllers = library([
      'one: {switch: {controller: 1, value: 5}}',
      'two: {switch: {controller: 1, value: 6}}',
    ]);
    const input = note(500, 2000, 60);
    const output = [cc(480, 1, 5), ...input.slice(0, 1), cc(900, 1, 6), ...input.slice(1)];
    const one = [[500, 60, 'one']] as const;
    expect(kindsOf({ map: controllers, meant: one, output })).toEqual([]);
    expect(kindsOf({ map: controllers, meant: one, input, output })).toEqual([
      'touched-note',
      'other-switch',
    ]);
  });
});

describe('touched-note, for momentary keys', () => {
  const momentary = library(['plain: {}', 'short: {switch: {note: 0}}'], '{notes: momentary, lead: 20ms}');
  const struck = on(480, 0, 100);

  it('is told where a key is let go while a note that needs it sounds', () => {
    const output = [struck, ...note(500, 900, 60), off(700, 0)];
    expect(proofOf({ map: momentary, meant: [[500, 60, 'short']], output }).violations).toMatchObject([
      { kind: 'touched-note', tick: 700, message: expect.stringContaining('letting go of the switch key') },
    ]);
  });

  it('is not told where the next note needs another, and is near', () => {
    const both = [
      [500, 60, 'short'],
      [1000, 62, 'plain'],
    ] as const;
    expect(kindsOf({ map: momentary, meant: both, output: [struck, off(980, 0), ...joined] })).toEqual([]);
    expect(kindsOf({ map: momentary, meant: both, output: [struck, off(900, 0), ...joined] })).toEqual([
      'touched-note',
    ]);
  });
});
