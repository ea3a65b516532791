import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { boundsIn, inWords } from '../../src/desk/index.js';
import { conditionSchemas, mapSchemaText } from '../../src/map/index.js';

const of = (...texts: readonly string[]) =>
  boundsIn(texts.map((text, index) => ({ name: index === 0 ? 'map.yaml' : `base-${index}.yaml`, text })));
const said = (...texts: readonly string[]) =>
  of(...texts).map((one) => `${one.where}: ${one.words} ${inWords(one, one.value)}`);

describe('bounds that can be moved', () => {
  it('are those of the rules, in words, and the steadiness', () => {
    const text = `
rules:
  - {when: {held: {from: 130ms, below: 0.32s}, held-share: {below: 47.5%}}, use: short}
  - {marked: [pizz., staccato], when: {velocity: {to: 90}, pitch: {from: Bb2}}, use: plucked}
  - {when: {any: [{pace: {below: 1/8}}, {not: {leap: {from: 7}}}]}, use: run}
  - {when: {run: {notes: 5, pace: {below: 150ms}}, controller: {number: 2, from: 64}, chord: {from: 3}}, use: run}
  - use: long
steadiness: 15%
`;
    expect(said(text)).toEqual([
      'rule 1: short: held from 130ms',
      'rule 1: short: held below 0.32s',
      'rule 1: short: held share below 47.5%',
      'rule 2: plucked (marked pizz. or staccato): velocity up to 90',
      'rule 2: plucked (marked pizz. or staccato): pitch from Bb2',
      'rule 3: run: pace below 1/8',
      'rule 3: run: not leap from 7',
      'rule 4: run: in a run of 5 or more, pace below 150ms',
      'rule 4: run: controller 2 from 64',
      'rule 4: run: chord from 3',
      'steadiness: notes near a bound keep to their neighbours within 15%',
    ]);
  });

  it('are named by their file and their place', () => {
    const [first] = of('rules: [{when: {any: [{held: {below: 130ms}}]}, use: short}]');
    expect(first).toMatchObject({
      id: 'map.yaml#rules.0.when.any.0.held.below',
      path: ['rules', 0, 'when', 'any', 0, 'held', 'below'],
    });
  });

  it('are in the file that lends the rules', () => {
    const base = 'rules: [{when: {held: {below: 130ms}}, use: short}]\nsteadiness: 10%';
    expect(of('base: base-1.yaml\nsteadiness: 20%', base).map(({ file, value }) => [file, value])).toEqual([
      ['base-1.yaml', '130'],
      ['map.yaml', '20'],
    ]);
    expect(of('rules: [{use: long}]', base).map(({ file }) => file)).toEqual(['base-1.yaml']);
  });

  it('are moved through what they can be: numbers, lengths of notes, pitches', () => {
    const reach = (when: string, head = '') =>
      of(`${head}rules: [{when: ${when}, use: short}]`).map((one) => one.reach)[0];
    expect(reach('{held: {below: 130ms}}')).toEqual({ least: 1, most: 1000, step: 1, unit: 'ms' });
    expect(reach('{held: {below: 1500.5ms}}')).toMatchObject({ most: 3100, step: 0.1 });
    expect(reach('{held: {below: 3s}}')).toMatchObject({ most: 6, step: 0.01, unit: 's' });
    expect(reach('{velocity: {from: 96}}')).toEqual({ least: 1, most: 127, step: 1, unit: '' });
    expect(reach('{pace: {below: 5/64}}')).toMatchObject({
      choices: expect.arrayContaining(['1/16', '5/64', '1/12', '1/4']),
    });
    const spelled = reach('{pitch: {from: Bb2}}', 'note-60: C3\n');
    // C3 is note 60 there, so Bb2 is 58.
    expect('choices' in (spelled ?? {}) && (spelled as { choices: string[] }).choices.indexOf('Bb2')).toBe(
      58,
    );
  });

  it('are none in a text that is no map', () => {
    for (const text of ['', '[', 'rules: 5', 'rules: [5, {when: 5}, {when: {held: 5}}]', '- 1', 'rules: *a'])
      expect(of(text)).toEqual([]);
  });

  it('are there for every condition that has a range', () => {
    // A kind that is added to the schema, and has a range, has to be known here too.
    const ranged = Object.entries(conditionSchemas()).flatMap(([name, schema]) => {
      const text = JSON.stringify(schema);
      return /"(from|below|to)":|duration-range/u.test(text) && /^when-(?!any$|all$|not$)/u.test(name)
        ? [name.slice(5)]
        : [];
    });
    expect(ranged.length).toBeGreaterThan(8);
    const spelled: Readonly<Record<string, string>> = {
      run: '{notes: 5, pace: {below: 100ms}}',
      controller: '{number: 1, from: 5}',
      pitch: '{from: C3}',
      'held-share': '{from: 50%}',
    };
    const durations = ['held', 'pace', 'rest-before', 'rest-after'];
    for (const key of ranged) {
      const when = spelled[key] ?? (durations.includes(key) ? '{below: 100ms}' : '{from: 5}');
      expect(of(`rules: [{when: {${key}: ${when}}, use: a}]`), key).toHaveLength(1);
    }
    expect(mapSchemaText).toContain('when-held');
  });

  it('are found in every map of the demo', () => {
    for (const name of ['harbour-light-horns', 'drift-line-strings', 'kelp-row-brass'])
      expect(of(readFileSync(`maps/demo/libraries/${name}.yaml`, 'utf8')).length, name).toBeGreaterThan(0);
  });
});
