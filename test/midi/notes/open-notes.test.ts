import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { OpenNotes } from '../../../src/midi/notes/open-notes.js';

describe('open notes', () => {
  it('are taken in the order in which their key was struck, and told from the earliest', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.boolean(), fc.constantFrom(0, 60, 2047))), (steps) => {
        const open = new OpenNotes(steps.length);
        const queues = new Map<number, number[]>();
        steps.forEach(([isStrike, key], note) => {
          const queue = queues.get(key) ?? [];
          queues.set(key, queue);
          if (isStrike) {
            open.add(key, note);
            queue.push(note);
          } else expect(open.take(key)).toBe(queue.shift() ?? -1);
          const chain: number[] = [];
          for (let one = open.first(key); one >= 0; one = open.next(one)) chain.push(one);
          expect(chain).toEqual(queue);
        });
      }),
    );
  });
});
