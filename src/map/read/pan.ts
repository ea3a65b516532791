import type { Tree } from '../../yaml/index.js';
import { field, number, type Source } from '../source/index.js';
import { panValues } from '../types.js';

/** What values of controller 10 do to recordings, rising, and a report (out-of-range) where it does not rise. */
export function panAnswer(source: Source, tree: Tree | undefined): ReadonlyMap<number, number> | undefined {
  if (!tree) return undefined;
  const found = Object.entries(panValues).flatMap(([name, value]) => {
    const at = field(tree, name);
    const dB = number(source, at);
    return at && dB !== undefined ? [{ name, value, dB, at }] : [];
  });
  const falling = found.find(({ dB }, index) => dB < (found[index - 1]?.dB ?? -Infinity));
  if (falling)
    source.report(
      'out-of-range',
      falling.at,
      `${falling.name} is ${falling.dB} dB, less than further to the left`,
      'the right side becomes louder from left to right',
    );
  return new Map(found.map(({ value, dB }) => [value, dB]));
}
