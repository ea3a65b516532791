import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { articulationOf, decide, onsetOf } from '../../../src/compile/decide/index.js';
import { noteEnd, noteTick, offOf, onOf, pitchOf } from '../../../src/midi/index.js';
import { mapOfMethod, randomLine } from '../../support/arbitrary.js';
import { decisionsIn } from '../../support/decided.js';
import { lineOfNotes, msTicks } from '../../support/line.js';
import { mapOf } from '../../support/map.js';

describe('what is decided, in columns', () => {
  it('says the same as its decisions, row by row', () => {
    fc.assert(
      fc.property(mapOfMethod('channel'), randomLine, (map, notes) => {
        const { decided } = decide(lineOfNotes(notes, [], msTicks, map), map);
        const rows = Array.from({ length: decided.length }, (_, row) => [
          ...[articulationOf(decided, row), onsetOf(decided, row), decided.isKept(row)],
          ...[onOf(decided, row), offOf(decided, row), noteTick(decided, row), noteEnd(decided, row)],
          ...[pitchOf(decided, row), decided.noteOf(row).held.ms],
        ]);
        expect(rows).toEqual(
          decisionsIn({ decided }).map(({ articulation, note, kept }) => [
            ...[articulation, note.onset, kept !== undefined],
            ...[note.onIndex, note.offIndex, note.tick, note.endTick, note.pitch, note.held.ms],
          ]),
        );
      }),
    );
  });

  it('has no row for a note that no rule fits, and the others keep their places', () => {
    const whole = mapOf(`
chords: each
articulations:
  low: {switch: {channel: 1}}
rules:
  - when: {pitch: {to: B3}}
    use: low
  - use: low
`);
    // As no checked map is.
    const map = { ...whole, rules: whole.rules.slice(0, 1) };
    const notes = [
      { tick: 0, end: 400, pitch: 72 },
      { tick: 500, end: 900, pitch: 50 },
      { tick: 1000, end: 1400, pitch: 52 },
      { tick: 1000, end: 1400, pitch: 48 },
    ];
    const { decided } = decide(lineOfNotes(notes, [], msTicks, map), map);
    expect(Array.from(decided.pitch)).toEqual([50, 52, 48]);
    expect(decisionsIn({ decided }).map(({ note }) => note.pitch)).toEqual([50, 52, 48]);
    expect(decided.noteOf(0).pitch).toBe(50);
  });
});
