import { escapeText, isError } from '../diagnostics/index.js';
import { parseYaml, type YamlPath } from '../yaml/index.js';
import type { DeskFile, Movable } from './movable.js';
import { reachOf } from './reach.js';

/** How the ends of ranges are said. */
const ends: Readonly<Record<string, string>> = { from: 'from', below: 'below', to: 'up to' };

/**
 * The bounds of a map's rules, and its steadiness, in the order of the file.
 *
 * @param files the map itself, then those that lend to it, the nearest first; rules are those of the first that has any
 */
export function boundsIn(files: readonly DeskFile[]): readonly Movable[] {
  const opened = files.map((file) => ({ file, data: dataOf(file) }));
  const first = (key: string) => opened.find(({ data }) => data?.[key] !== undefined);
  const middle = first('note-60')?.data?.['note-60'];
  const middleC = Number(/-?\d+$/u.exec(String(middle))?.[0] ?? 4);
  const rules = first('rules');
  const steady = first('steadiness');
  return [
    ...(rules
      ? listOf(rules.data?.rules).flatMap((rule, index) => ofRule(rules.file, rule, index, middleC))
      : []),
    ...(steady ? steadiness(steady.file, steady.data?.steadiness) : []),
  ];
}

type Data = Readonly<Record<string, unknown>>;

function dataOf({ name, text }: DeskFile): Data | undefined {
  const { value, diagnostics } = parseYaml(new TextEncoder().encode(text), name);
  return diagnostics.some(isError) ? undefined : mappingOf(value?.root.data);
}

function mappingOf(data: unknown): Data | undefined {
  return typeof data === 'object' && data !== null && !Array.isArray(data) ? (data as Data) : undefined;
}

function listOf(data: unknown): readonly unknown[] {
  return Array.isArray(data) ? data : [];
}

function steadiness(file: DeskFile, data: unknown): readonly Movable[] {
  return bound(
    file,
    ['steadiness'],
    'steadiness',
    data,
    0,
    'notes near a bound keep to their neighbours within',
    'steadiness',
  );
}

function ofRule(file: DeskFile, data: unknown, index: number, middleC: number): readonly Movable[] {
  const rule = mappingOf(data);
  const marked = [rule?.marked ?? []].flat().map(String);
  const who = escapeText(
    `${String(rule?.use)}${marked.length === 0 ? '' : ` (marked ${marked.join(' or ')})`}`,
  );
  const where = `rule ${index + 1}`;
  const conditions = (condition: unknown, path: YamlPath, not: string): readonly Movable[] =>
    Object.entries(mappingOf(condition) ?? {}).flatMap(([key, value]) => {
      const at = [...path, key];
      if (key === 'any' || key === 'all')
        return listOf(value).flatMap((member, place) => conditions(member, [...at, place], not));
      if (key === 'not') return conditions(value, at, 'not ');
      const range = key === 'run' ? mappingOf(value)?.pace : value;
      return Object.entries(mappingOf(range) ?? {}).flatMap(([end, data]) =>
        ends[end] === undefined
          ? []
          : bound(
              file,
              [...at, ...(key === 'run' ? ['pace'] : []), end],
              key,
              data,
              middleC,
              `${who}: ${not}${wordsOf(key, value)} ${ends[end]}`,
              where,
            ),
      );
    });
  return conditions(rule?.when, ['rules', index, 'when'], '');
}

function wordsOf(key: string, value: unknown): string {
  if (key === 'controller') return `controller ${String(mappingOf(value)?.number)}`;
  if (key === 'run') return `in a run of ${String(mappingOf(value)?.notes)} or more, pace`;
  return key.replaceAll('-', ' ');
}

function bound(
  { name }: DeskFile,
  path: YamlPath,
  key: string,
  data: unknown,
  middleC: number,
  words: string,
  where: string,
): readonly Movable[] {
  const taken = reachOf(key, data, middleC);
  return taken ? [{ id: `${name}#${path.join('.')}`, file: name, path, words, where, ...taken }] : [];
}
