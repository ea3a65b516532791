import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readMap } from '../../../src/map/read/index.js';
import { mapYaml, randomLine } from '../../support/arbitrary.js';
import { decided } from '../../support/decided.js';
import { draws } from '../../support/draws.js';

const head = `format: keyslip-map/1
library: L
instrument: I
family: other
note-60: C4
range: [C2, C8]
articulations: {a: {switch: {note: 1}}, b: {switch: {note: 2}}}
rules:
`;

/** Which of the rules (from 0) can never fire, as they say; `a` is used by all, one without conditions stands last. */
function dead(...rules: readonly string[]): readonly number[] {
  const yaml = `${head}${[...rules, '{}'].map((rule) => `  - ${rule.replace(/\}$/u, rule === '{}' ? 'use: a}' : ', use: a}')}\n`).join('')}`;
  const { value, diagnostics } = readMap(new TextEncoder().encode(yaml), 'x');
  if (!value) throw new Error(diagnostics.map(({ message }) => message).join('\n'));
  return diagnostics.flatMap(({ code, place }) =>
    code === 'dead-rule' && place.kind === 'text' ? [place.line - 9] : [],
  );
}

describe('rules that can never fire (dead-rule)', () => {
  it('stand behind one without conditions', () => {
    expect(dead('{}')).toEqual([1]);
    expect(dead('{marked: arco}', '{}', '{marked: pizz.}', '{when: {held: {below: 1s}}}')).toEqual([2, 3, 4]);
  });

  it('are found for shares, pedals, controllers and what came before', () => {
    expect(dead('{when: {held-share: {below: 50%}}}', '{when: {held-share: {below: 40%}}}')).toEqual([1]);
    expect(
      dead('{when: {held-share: {below: 50%}}}', '{when: {held-share: {from: 50%}}}', '{when: {pedal: up}}'),
    ).toEqual([2]);
    expect(dead('{when: {pedal: up}}', '{when: {pedal: down}}', '{when: {pitch: {from: 60}}}')).toEqual([2]);
    expect(dead('{when: {after: [a, b]}}', '{when: {after: b}}', '{when: {after: [b, a]}}')).toEqual([1, 2]);
    expect(
      dead(
        '{when: {controller: {number: 1, from: 9}}}',
        '{when: {controller: {number: 1, from: 64, to: 70}}}',
      ),
    ).toEqual([1]);
    // A controller that was never set fits no range, and another controller is another thing.
    expect(
      dead('{when: {controller: {number: 1, to: 127}}}', '{when: {controller: {number: 2, to: 9}}}'),
    ).toEqual([]);
    expect(dead('{when: {repeats-next: true}}', '{when: {repeats-next: true, pedal: up}}')).toEqual([1]);
  });

  it('ask for what a rule above asks for, or for less', () => {
    expect(dead('{when: {held: {below: 200ms}}}', '{when: {held: {below: 100ms}}}')).toEqual([1]);
    expect(dead('{when: {held: {below: 1/8}}}', '{when: {held: {from: 1/32, below: 2/16}}}')).toEqual([1]);
    expect(
      dead('{when: {overlaps-next: true}}', '{when: {overlaps-next: true, velocity: {from: 90}}}'),
    ).toEqual([1]);
    expect(
      dead(
        '{when: {velocity: {from: 80}, held: {below: 1s}}}',
        '{when: {held: {below: 900ms}, velocity: {from: 81, to: 90}}}',
      ),
    ).toEqual([1]);
    expect(dead('{marked: [arco, pizz.]}', '{marked: pizz., when: {leap: {from: 3}}}')).toEqual([1]);
    expect(dead('{marked: stacc.}', '{marked: [staccato]}')).toEqual([1]);
    expect(
      dead(
        '{when: {run: {notes: 3, pace: {below: 200ms}}}}',
        '{when: {run: {notes: 4, pace: {below: 150ms}}}}',
      ),
    ).toEqual([1]);
    expect(
      dead('{when: {any: [{chord: {from: 3}}, {leap: {from: 5}}]}}', '{when: {leap: {from: 7}}}'),
    ).toEqual([1]);
    expect(
      dead('{when: {leap: {from: 5}}}', '{when: {any: [{leap: {from: 6}}, {leap: {from: 5, to: 7}}]}}'),
    ).toEqual([1]);
    expect(dead('{when: {not: {chord: {from: 3}}}}', '{when: {not: {chord: {from: 2}}}}')).toEqual([1]);
  });

  it('ask for what the rules above take between them', () => {
    expect(
      dead(
        '{when: {held: {below: 100ms}}}',
        '{when: {held: {from: 100ms, below: 300ms}}}',
        '{when: {held: {from: 50ms, below: 250ms}}}',
      ),
    ).toEqual([2]);
    expect(
      dead(
        '{when: {velocity: {to: 63}}}',
        '{when: {velocity: {from: 64, to: 90}}}',
        '{when: {velocity: {from: 60, to: 70}, leap: {from: 2}}}',
      ),
    ).toEqual([2]);
    expect(dead('{marked: arco}', '{marked: pizz.}', '{marked: [pizz., arco]}')).toEqual([2]);
    expect(
      dead('{when: {overlaps-next: true}}', '{when: {overlaps-next: false}}', '{when: {leap: {from: 2}}}'),
    ).toEqual([2]);
    expect(dead('{when: {held: {below: 100ms}}}', '{when: {held: {from: 90ms}}}', '{marked: arco}')).toEqual([
      2,
    ]);
  });

  it('contradict themselves', () => {
    expect(dead('{when: {all: [{held: {below: 100ms}}, {held: {from: 200ms}}]}}')).toEqual([0]);
    expect(dead('{when: {velocity: {to: 40}, all: [{all: [{velocity: {from: 41}}]}]}}')).toEqual([0]);
    expect(dead('{when: {overlaps-next: true, all: [{overlaps-next: false}]}}')).toEqual([0]);
    expect(dead('{when: {any: [{all: [{chord: {to: 1}}, {chord: {from: 2}}]}]}}')).toEqual([0]);
  });

  it('are not those that still have something to take', () => {
    expect(dead('{when: {held: {below: 100ms}}}', '{when: {held: {below: 101ms}}}')).toEqual([]);
    expect(dead('{when: {held: {below: 100ms}}}', '{when: {held: {below: 1/64}}}')).toEqual([]);
    expect(dead('{when: {held: {below: 100ms}}}', '{when: {pace: {below: 50ms}}}')).toEqual([]);
    expect(dead('{marked: arco, when: {held: {below: 100ms}}}', '{when: {held: {below: 50ms}}}')).toEqual([]);
    expect(dead('{marked: arco}', '{marked: [arco, pizz.]}')).toEqual([]);
    expect(
      dead(
        '{when: {held: {below: 100ms}}}',
        '{when: {held: {from: 101ms, below: 200ms}}}',
        '{when: {held: {from: 50ms, below: 150ms}}}',
      ),
    ).toEqual([]);
    // The first note of a line has no leap; in a file without beats no length is a fraction of a note.
    expect(
      dead('{when: {leap: {to: 4}}}', '{when: {leap: {from: 5}}}', '{when: {velocity: {from: 2}}}'),
    ).toEqual([]);
    expect(
      dead('{when: {held: {below: 1/8}}}', '{when: {held: {from: 1/8}}}', '{when: {velocity: {from: 2}}}'),
    ).toEqual([]);
    // The last rule takes what is left, even where nothing is.
    expect(dead('{when: {overlaps-next: true}}', '{when: {overlaps-next: false}}')).toEqual([]);
  });

  it('never decide a note, whatever the map and the line', () => {
    let found = 0;
    // One line in twelve at least has a dead rule, of so many.
    const numRuns = Math.max(360, draws(1200));
    fc.assert(
      fc.property(mapYaml('latching'), randomLine, (yaml, notes) => {
        const { value: map, diagnostics } = readMap(new TextEncoder().encode(yaml), 'x');
        if (!map) throw new Error('the map has errors');
        const lines = new Set(
          diagnostics.flatMap(({ code, place }) =>
            code === 'dead-rule' && place.kind === 'text' ? [place.line] : [],
          ),
        );
        const isDead = (index: unknown) =>
          map.rules.some(
            ({ place, ...rule }) => rule.index === index && place.kind === 'text' && lines.has(place.line),
          );
        if (lines.size === 0 || notes.length === 0) return;
        found += 1;
        for (const { rule } of decided(map, notes)) expect(isDead(rule)).toBe(false);
      }),
      { seed: 71, numRuns },
    );
    expect(found).toBeGreaterThan(numRuns / 12);
  });

  it('are found at once in long and nested maps', () => {
    const rules = Array.from(
      { length: 998 },
      (_, index) =>
        `{when: {held: {from: ${index}ms, below: ${index + 2}ms}, pace: {below: ${2000 - index}ms}}}`,
    );
    expect(dead(...rules, '{when: {held: {from: 500ms, below: 501ms}, pace: {below: 10ms}}}')).toEqual([998]);
    const many = (condition: string, times: number) => Array(times).fill(condition).join(', ');
    expect(
      dead(
        `{when: {any: [${many('{velocity: {from: 5}}', 4000)}, {chord: {from: 2}}]}}`,
        `{when: {any: [${many('{chord: {from: 3}}', 4000)}]}}`,
      ),
    ).toEqual([]);
  });
});
