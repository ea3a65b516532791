import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { program } from '../support/cli.js';

const folder = dirname(program);
const textOf = (name: string) => readFileSync(join(folder, name), 'utf8');

/** The files that are read with one: what it imports, and what that imports, not on demand. */
function readWith(...names: readonly string[]): readonly string[] {
  const texts = new Map<string, string>();
  const read = (name: string) => {
    if (texts.has(name)) return;
    const text = textOf(name);
    texts.set(name, text);
    for (const [, next = ''] of text.matchAll(/(?:from|import)"\.\/([^"]+)"/gu)) read(next);
  };
  for (const name of names) read(name);
  return [...texts.values()];
}

/** The file that has a command. */
function fileOf(command: string): string {
  const declared = new RegExp(`function ${command}\\(`, 'u');
  const [name, ...more] = readdirSync(folder).filter(
    (one) => one.startsWith('keyslip') && one.endsWith('.js') && declared.test(textOf(one)),
  );
  if (name === undefined || more.length > 0) throw new Error(`${command} is not in one file`);
  return name;
}

const sizeOf = (texts: readonly string[]) => texts.reduce((sum, text) => sum + text.length, 0);

// commander takes 55 kB of it. A folder's index that is not looked through would bring all of YAML, or of maps.
it('reads little before a command begins: neither YAML, nor maps, nor MIDI', () => {
  const all = readWith('keyslip.js');
  expect(sizeOf(all)).toBeGreaterThan(60_000);
  expect(sizeOf(all)).toBeLessThan(150_000);
  for (const text of all)
    expect(text).not.toMatch(/yaml-duplicate-key"\s*,|function (readMap|readMidi|parseYaml)\b/u);
});

it('reads a few files for compile, with what it wants alone: no cues, proof, schemas, clips, scores or patterns', () => {
  const all = readWith('keyslip.js', fileOf('compileCommand'));
  expect(all.length).toBeLessThan(10);
  expect(sizeOf(all)).toBeLessThan(720_000);
  expect(all.join('')).toMatch(/function readMap\(.*function decide\(/su);
  const others = 'compileCue|readCue|proofFor|mergedMap|clipFile|readMusicXml|engravingsOf|globSync';
  expect(all.join('')).not.toMatch(new RegExp(`function (${others})\\(|json-schema\\.org[^,]*,\\\\n`, 'u'));
  // They are there, in files that others read.
  for (const other of ['compileCue', 'readCue', 'proofFor', 'mergedMap', 'clipFile', 'globSync'])
    expect(fileOf(other)).toMatch(/^keyslip-/u);
});
