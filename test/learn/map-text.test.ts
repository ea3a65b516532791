import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { playExample } from '../../src/learn/examples.js';
import { findExamples, learn, mapText, NotASketch } from '../../src/learn/index.js';
import { columnsOf, decideRules } from '../../src/learn/ladder.js';
import { labelled } from './labelled.js';

const sketch = `# A sketch; nothing of it may be lost.
format: keyslip-map/1
library:   Cold Harbour Brass   # invented
articulations:   # in the order of the manual
  short: {switch: {note: C0}}
  long:  {switch: {note: D0}}

# how loud it is
dynamics: {controller: 1, levels: {p: 34}}
`;

const given = labelled(4, 600, 5, { noise: 0.05 });
const learned = learn(given.notes);
const middleC = (note: number) =>
  `${['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'][note % 12]}${Math.floor(note / 12) - 1}`;

describe('mapText', () => {
  it('keeps every line of the sketch, in its order', () => {
    const lines = mapText(sketch, learned, given.notes, middleC).split('\n');
    const kept = sketch.split('\n').filter((line) => line !== '');
    expect(lines.filter((line) => kept.includes(line))).toEqual(kept);
  });

  it('writes the rules that were learned, the last without a condition', () => {
    const map = parse(mapText(sketch, learned, given.notes, middleC));
    expect(map.rules.map(({ use }: { use: string }) => use)).toEqual(
      learned.ladder.map(({ articulation }) => given.notes.articulations[articulation]),
    );
    expect(map.rules.at(-1)).not.toHaveProperty('when');
    expect(Object.keys(map)).toEqual(['format', 'library', 'articulations', 'rules', 'dynamics', 'examples']);
  });

  it('puts them in the place of rules that were there, and is the same when done again', () => {
    const once = mapText(sketch, learned, given.notes, middleC);
    expect(mapText(once, learned, given.notes, middleC)).toBe(once);
    const old = sketch.replace('# how loud', 'rules:\n  - use: long\n\n# how loud');
    expect(parse(mapText(old, learned, given.notes, middleC))).toEqual(parse(once));
  });

  it('ends its lines as the sketch does', () => {
    const text = mapText(sketch.replaceAll('\n', '\r\n'), learned, given.notes, middleC);
    expect(text.replaceAll('\r\n', '')).not.toContain('\n');
  });

  it('refuses what it cannot write into', () => {
    for (const text of ['{format: keyslip-map/1}', '- a list', 'a: [', ''])
      expect(() => mapText(text, learned, given.notes, middleC)).toThrow(NotASketch);
  });

  it('writes steadiness before the rules', () => {
    const keys = Object.keys(parse(mapText(sketch, { ...learned, steadiness: 0.3 }, given.notes, middleC)));
    expect(keys.indexOf('steadiness')).toBe(keys.indexOf('rules') - 1);
  });
});

describe('findExamples', () => {
  const examples = findExamples(learned, given.notes);

  it('has examples from real notes that the ladder decides as they sounded', () => {
    expect(examples.length).toBeGreaterThan(0);
    for (const example of examples) {
      const played = playExample(example);
      const rules = decideRules(learned.ladder, played.length, columnsOf(played));
      expect([...rules].map((rule) => learned.ladder[rule]?.articulation)).toEqual(example.expect);
      example.notes.forEach(({ pitch, heldMs }, index) => {
        expect(pitch).toBe(given.notes.pitch[example.row + index]);
        expect(heldMs).toBe(Math.round(given.notes.heldMs[example.row + index] ?? 0));
        expect(example.expect[index]).toBe(given.notes.label[example.row + index]);
      });
    }
  });

  it('measures an example as notes are measured', () => {
    const [example] = examples;
    if (!example) throw new Error('no example');
    const played = playExample(example);
    // All but the last have the interval that they had in the music.
    for (let index = 0; index < example.notes.length - 1; index++) {
      const share = given.notes.heldShare[example.row + index] ?? 0;
      expect(Math.abs((played.heldShare[index] ?? 0) - share)).toBeLessThan(3);
      if (index > 0) expect(played.leap[index]).toBe(given.notes.leap[example.row + index]);
    }
  });
});
