import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { scratchFolder } from '../support/cli.js';
import { programWith } from '../support/otherwise.js';

/** A compiler with a fault: it loses the first switch of every part. */
const faulty = `
import { Insertions } from '../../midi/index.js';
import * as right from './index.js?right';
export * from './index.js?right';
export function placeSwitches(...words) {
  const switched = right.placeSwitches(...words);
  const insertions = new Insertions();
  const put = switched.insertions;
  for (let at = 1; at < put.length; at++)
    insertions.put(put.beforeOf(at), put.tickOf(at), put.rankOf(at), put.messageOf(at));
  return { ...switched, insertions };
}
`;

describe('a result that the model of the library does not hear right', () => {
  it('is not written, and the old file stays (not-proved)', async () => {
    const run = await programWith('compile/switching/index', faulty);
    const output = join(scratchFolder(), 'out.mid');
    writeFileSync(output, 'old');
    const words = ['compile', 'maps/demo/last-boat.mid', '--map', 'maps/saltmarsh-horns.yaml'];
    const { status, err } = await run([...words, '-o', output, '--prove']);
    expect(status).toBe(1);
    expect(err).toContain('[not-proved]');
    expect(err).toContain('bar 1 beat 1');
    expect(readFileSync(output, 'utf8')).toBe('old');
  });
});
