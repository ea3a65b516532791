import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { jsonPieces } from '../../src/cli/json-pieces.js';

/** A list whose members are made as they are come to. */
const listOf = (members: readonly unknown[]) => ({ [Symbol.iterator]: () => members.values() });

describe('a JSON document in pieces', () => {
  it('is what JSON.stringify says, wherever lists are made as they are come to', () => {
    const members = fc.array(fc.jsonValue({ maxDepth: 1 }), { maxLength: 4 });
    fc.assert(
      fc.property(fc.jsonValue(), members, fc.constantFrom(1, 200), (about, few, times) => {
        const many = Array.from({ length: times }, () => few).flat();
        const document = (list: (of: readonly unknown[]) => unknown) => ({
          about,
          left: undefined,
          parts: [{ name: 'a\nb', notes: list(many) }, { notes: list([]) }, list(few), null],
          found: [],
        });
        const pieces = [...jsonPieces(document(listOf))];
        expect(pieces.join('')).toBe(
          `${JSON.stringify(
            document((of) => of),
            null,
            2,
          )}\n`,
        );
      }),
    );
  });

  it('comes in pieces that never hold it whole', () => {
    const notes = Array.from({ length: 20_000 }, (_, tick) => ({ tick, articulation: 'long' }));
    const lengths = Array.from(jsonPieces({ notes: listOf(notes) }), ({ length }) => length);
    const whole = lengths.reduce((sum, length) => sum + length, 0);
    expect(whole).toBeGreaterThan(1_000_000);
    expect(Math.max(...lengths)).toBeLessThan(100_000);
  });
});
