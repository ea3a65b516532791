import { describe, expect, it } from 'vitest';
import { compileParts } from '../../src/compile/index.js';
import { report } from '../../src/report/decisions.js';
import { explainPart } from '../../src/report/explanation.js';
import { summary } from '../../src/report/summary.js';
import { ladderMap, mapOf } from '../support/map.js';
import { songOf, textAt, trackOf } from '../support/song.js';

const notes = [
  { tick: 480, end: 580, pitch: 60 },
  { tick: 960, end: 1100, pitch: 62 },
  { tick: 1920, end: 2500, pitch: 64 },
  { tick: 2880, end: 3400, pitch: 65 },
];
const song = songOf([trackOf([]), trackOf(notes, [textAt(2880, '[joined]')], 'Horns \x1b[31m')], {
  ppq: 480,
});
const map = mapOf(`steadiness: 15%\n${ladderMap}`);
const { parts } = compileParts(song, [{ part: { track: 2, trackName: 'Horns \x1b[31m', channel: 0 }, map }]);
const [part] = parts;
if (!part) throw new Error('no part');

describe('explaining', () => {
  it('says place, pitch, articulation, rule with its line, what was measured, and the switch', () => {
    const lines = [...explainPart(part)];
    expect(lines[1]).toMatch(
      /^ {2}1\.2 {2}C4 {2}short {3}test\.yaml:\d+: held 104\.2 ms \(below 130ms\) · switched at tick 461$/u,
    );
    expect(lines[2]).toContain('kept with the 1 onset before it; held 145.8 ms, near 130 ms, for which');
    expect(lines[2]).toContain('alone would give medium');
    expect(lines[3]).toContain('no condition');
    expect(lines[4]).toContain('marked [joined]');
  });

  it('says of a lower note what the top note of its chord decided', () => {
    const chord = [
      { tick: 0, end: 900, pitch: 60 },
      { tick: 0, end: 100, pitch: 64 },
    ];
    const played = songOf([trackOf(chord)]);
    const switched = compileParts(played, [{ part: { track: 1, trackName: '', channel: 0 }, map }]);
    const [, low, high] = switched.parts[0] ? explainPart(switched.parts[0]) : [];
    expect(low).toMatch(/C4 {2}short .*: held 104\.2 ms \(below 130ms\), by E4 of its chord/u);
    expect(high).toMatch(/E4 {2}short .*: held 104\.2 ms \(below 130ms\)( ·|$)/u);
  });

  it('shows no control characters of a track name', () => {
    expect([...explainPart(part)].join('')).not.toContain('\x1b');
    expect(summary(parts, 'in.mid', 'out.mid')).not.toContain('\x1b');
  });
});

describe('the report', () => {
  it('has the shape that the contract gives', () => {
    const whole = report('in.mid', parts);
    expect(whole).toMatchObject({ input: 'in.mid', map: 'test.yaml', parts: [{ track: 2, channel: 1 }] });
    expect(whole.parts[0]?.notes[0]).toEqual({
      tick: 480,
      bar: 1,
      beat: 2,
      pitch: 60,
      velocity: 80,
      heldMs: 104.167,
      articulation: 'short',
      rule: 1,
      switchTick: 461,
    });
    expect(whole.parts[0]?.notes.map(({ rule, switchTick }) => [rule, switchTick])).toEqual([
      [1, 461],
      [1, null],
      [3, 1901],
      ['marked', 2861],
    ]);
  });
});

describe('the summary', () => {
  it('counts notes for each articulation, and switches', () => {
    const text = summary(parts, 'in.mid', 'out.mid');
    expect(text).toMatch(/short +2 notes/u);
    expect(text).toMatch(/long +1 note$/mu);
    expect(text).toContain('3 switches sent before 4 notes');
    expect(text).not.toContain('medium');
  });
});
