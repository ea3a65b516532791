import { quoted } from '../diagnostics/index.js';
import type { SchemaError } from './schema-error.js';
import type { Tree } from './tree.js';

/** `switching.lead`, `rules, item 3, when.held`; `the file` for the whole. */
export function formatPath(trees: readonly Tree[], steps: readonly string[]): string {
  const said = steps.reduce((before, step, index) => {
    if (Array.isArray(trees[index]?.data)) return `${before}, item ${Number(step) + 1}`;
    const isAfterItem = index > 0 && Array.isArray(trees[index - 1]?.data);
    return `${before}${isAfterItem ? ', ' : '.'}${step.length > 40 ? `${step.slice(0, 40)}…` : step}`;
  }, '');
  return said.slice(1) || 'the file';
}

/** What was found: a text in quotation marks, a number as it is, or what kind of thing it is. */
export function formatValue(value: unknown): string {
  if (typeof value === 'string') return quoted(value);
  if (value === null || value === undefined) return 'empty';
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : 'a list';
  if (typeof value !== 'object') return String(value);
  const keys = Object.keys(value);
  const more = keys.length > 6 ? ', …' : '';
  return keys.length === 0
    ? 'an empty mapping'
    : `a mapping with ${keys.slice(0, 6).map(quoted).join(', ')}${more}`;
}

const typeWords: Readonly<Record<string, string>> = {
  object: 'a mapping of keys',
  array: 'a list',
  string: 'a text',
  integer: 'a whole number',
  number: 'a number',
  boolean: 'true or false',
};

/** What a value must be, from the types that a schema names. */
export function formatTypes(types: unknown): string {
  return [types]
    .flat()
    .map((type) => typeWords[String(type)] ?? String(type))
    .join(' or ');
}

/** `at least 1`, from the parameters of a schema's limit. */
export function formatLimit({ comparison, limit }: Readonly<Record<string, unknown>>): string {
  const words: Readonly<Record<string, string>> = {
    '>=': 'at least',
    '<=': 'at most',
    '>': 'more than',
    '<': 'less than',
  };
  return `${words[String(comparison)] ?? ''} ${String(limit)}`;
}

/** `at least 1 item`; undefined where the error is not about how much there is. */
export function formatCount({ keyword, params }: SchemaError): string | undefined {
  const [, bound, kind] = /^(min|max)(Items|Properties|Length)$/u.exec(keyword) ?? [];
  if (kind === undefined) return undefined;
  const { limit } = params;
  const what = { Items: 'item', Properties: 'key', Length: 'character' }[kind] ?? '';
  return `${bound === 'min' ? 'at least' : 'at most'} ${String(limit)} ${what}${limit === 1 ? '' : 's'}`;
}
