import { describe, expect, it } from 'vitest';
import { decide } from '../../../src/compile/decide/index.js';
import { decided, decisionsIn, detached } from '../../support/decided.js';
import { lineOfNotes, msTicks } from '../../support/line.js';
import { ladderMap, mapOf } from '../../support/map.js';
import { textAt } from '../../support/song.js';

const names = (...args: Parameters<typeof decided>) =>
  decided(...args).map(({ articulation }) => articulation);

describe('the ladder of rules', () => {
  it('gives a run of fast notes the shorter staccato and slower ones the longer (common practice, no source)', () => {
    const map = mapOf(ladderMap);
    expect(names(map, detached([90, 95, 90, 92, 200, 210, 700]))).toEqual([
      ...['short', 'short', 'short', 'short'],
      ...['medium', 'medium', 'long'],
    ]);
  });

  it('is read from the top: the first rule that fits decides, and is named by its index', () => {
    const map = mapOf(ladderMap);
    const notes = [
      { tick: 0, end: 110, pitch: 60 },
      { tick: 100, end: 190, pitch: 62 },
    ];
    expect(decided(map, notes).map(({ articulation, rule }) => [articulation, rule])).toEqual([
      ['joined', 0],
      ['short', 1],
    ]);
  });

  it('needs both where a rule has marks and conditions', () => {
    const map = mapOf(`
articulations:
  bitten: {switch: {note: C0}}
  plain: {switch: {note: D0}}
rules:
  - marked: [accent, spiccato]
    when: {held: {below: 200ms}}
    use: bitten
  - use: plain
`);
    const notes = detached([100, 100, 300, 100]);
    expect(names(map, notes, [textAt(120, '[accent]')])).toEqual(['plain', 'bitten', 'plain', 'bitten']);
  });
});

describe('marks', () => {
  const map = mapOf(`
articulations:
  pecked: {switch: {note: C0}, means: [staccato]}
  clipped: {switch: {note: D0}, means: [stacc., staccatissimo]}
  bowed: {switch: {note: E0}, means: [tenuto]}
rules:
  - marked: [tenuto]
    use: pecked
  - when: {held: {below: 150ms}}
    use: clipped
  - when: {held: {below: 500ms}}
    use: pecked
  - use: bowed
`);

  it("that are the map's own articulations decide by themselves", () => {
    const [first] = decided(map, detached([100]), [textAt(0, '[bowed]')]);
    expect(first).toMatchObject({ articulation: 'bowed', rule: 'marked', mark: 'bowed' });
  });

  it('that an articulation means choose it, where no rule asks for the mark', () => {
    expect(decided(map, detached([900]), [textAt(0, '[staccatissimo]')])).toMatchObject([
      { articulation: 'clipped', rule: 'marked' },
    ]);
  });

  it('that several articulations mean leave the choice among them to the ladder', () => {
    expect(names(map, detached([100, 400, 900]), [textAt(0, '[staccato]')])).toEqual([
      'clipped',
      'pecked',
      'pecked',
    ]);
  });

  it('that a rule asks for are left to the rules', () => {
    expect(decided(map, detached([900]), [textAt(0, '[ten.]')])).toMatchObject([
      { articulation: 'pecked', rule: 0 },
    ]);
  });
});

describe('chords', () => {
  const body = `
articulations:
  short: {switch: {note: C0}}
  long: {switch: {note: D0}}
rules:
  - when: {held: {below: 200ms}}
    use: short
  - use: long
`;
  const chord = [
    { tick: 0, end: 100, pitch: 60 },
    { tick: 0, end: 500, pitch: 67 },
    { tick: 10, end: 150, pitch: 64 },
  ];

  it('are decided by their top note', () => {
    expect(names(mapOf(body), chord)).toEqual(['long', 'long', 'long']);
  });

  it('are decided note by note where the map says so and routes by channel', () => {
    const map = mapOf(
      `chords: each\n${body.replace('note: C0', 'channel: 2').replace('note: D0', 'channel: 3')}`,
    );
    const { decided, diagnostics } = decide(lineOfNotes(chord, [], msTicks, map), map);
    expect(decisionsIn({ decided }).map(({ articulation }) => articulation)).toEqual([
      'short',
      'long',
      'short',
    ]);
    expect(diagnostics).toEqual([]);
  });

  it('report notes that ask for different articulations on one channel (chord-conflict)', () => {
    const map = mapOf(`chords: each\n${body}`);
    const { decided, diagnostics } = decide(lineOfNotes(chord, [], msTicks, map), map);
    expect(decisionsIn({ decided }).map(({ articulation }) => articulation)).toEqual([
      'long',
      'long',
      'long',
    ]);
    expect(diagnostics.map(({ code, severity }) => [code, severity])).toEqual([
      ['chord-conflict', 'warning'],
      ['chord-conflict', 'warning'],
    ]);
  });
});
