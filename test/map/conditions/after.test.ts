import { describe, expect, it } from 'vitest';
import { decided, detached } from '../../support/decided.js';
import { mapOf } from '../../support/map.js';
import { diagnosed } from '../read/diagnosed.js';

const map = mapOf(`articulations:
  a: {switch: {note: C0}}
  b: {switch: {note: D0}}
  c: {switch: {note: E0}}
rules:
  - when: {after: a}
    use: b
  - when: {any: [{after: [b, c]}, {held: {from: 900ms}}]}
    use: c
  - use: a
`);

describe('after', () => {
  it('asks what the previous onset was given; the first note comes after nothing', () => {
    const got = decided(map, detached([200, 200, 200, 200])).map(({ articulation }) => articulation);
    expect(got).toEqual(['a', 'b', 'c', 'c']);
  });

  it('names articulations of the map', () => {
    const rule = (names: string) =>
      diagnosed(
        `articulations: {long: {switch: {note: C0}}, short: {switch: {note: D0}}}\nrules:\n  - {when: {after: ${names}}, use: long}\n  - use: short\n`,
      );
    expect(rule('[long, short]')).toEqual([]);
    expect(rule('[lnog]')).toEqual(['unknown-articulation: "lnog" is no articulation of this map']);
  });
});
