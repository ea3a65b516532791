import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { program } from '../support/cli.js';

/** The files that are read before any command begins: what the program imports, and what that imports, not on demand. */
function readAtStart(): ReadonlyMap<string, string> {
  const texts = new Map<string, string>();
  const read = (name: string) => {
    if (texts.has(name)) return;
    const text = readFileSync(join(dirname(program), name), 'utf8');
    texts.set(name, text);
    for (const [, next = ''] of text.matchAll(/(?:from|import)"\.\/([^"]+)"/gu)) read(next);
  };
  read('keyslip.js');
  return texts;
}

// commander takes 55 kB of it. A folder's index that is not looked through would bring all of YAML, or of maps.
it('reads little before a command begins: neither YAML, nor maps, nor MIDI', () => {
  const all = [...readAtStart().values()];
  const size = all.reduce((sum, text) => sum + text.length, 0);
  expect(size).toBeGreaterThan(60_000);
  expect(size).toBeLessThan(150_000);
  for (const text of all)
    expect(text).not.toMatch(/yaml-duplicate-key"\s*,|function (readMap|readMidi|parseYaml)\b/u);
});
