import { type Document, parseDocument } from 'yaml';
import { type Refused, spliceFor, type YamlPath } from './splice.js';

/** A value that is to stand in a text. */
export interface ValueEdit {
  readonly path: YamlPath;
  /** As YAML on one line. */
  readonly text: string;
  /** As plain data. */
  readonly value: unknown;
}

/** Why a text was left as it is; `spoils`: something else in it would have changed. */
export type NotEdited = Refused | 'spoils';

/** A text that can be edited, and what is in it. */
export interface EditedYaml {
  readonly text: string;
  readonly document: Document.Parsed;
}

/** Reads a text (YAML 1.2, core schema) to be edited. */
export function openYaml(text: string): EditedYaml {
  return { text, document: parseDocument(text, { schema: 'core' }) };
}

/**
 * Puts one value in its place. Comments, order, spacing and quotes stay. What comes of it is read back: an edit that would
 * do anything else is not made.
 *
 * @param behind keys of neighbours behind which a new key is put, the best first; behind the last one else
 */
export function edited(
  { text, document }: EditedYaml,
  { path, text: value, value: data }: ValueEdit,
  behind: readonly string[] = [],
): EditedYaml | { readonly refused: NotEdited } {
  if (document.errors.length > 0) return { refused: 'shape' };
  const splice = spliceFor(document, text, path, value, behind);
  if (typeof splice === 'string') return { refused: splice };
  const next = openYaml(text.slice(0, splice.from) + splice.text + text.slice(splice.to));
  const isAsMeant =
    next.document.errors.length === 0 &&
    canonical(dataOf(next.document)) === canonical(withValue(dataOf(document), path, data));
  return isAsMeant ? next : { refused: 'spoils' };
}

/** Whatever unfolds without end was refused when the file was read. */
function dataOf(document: Document.Parsed): unknown {
  return document.toJS({ maxAliasCount: -1 }) as unknown;
}

/** Data with one value set, the rest as it was. */
function withValue(data: unknown, [key, ...rest]: YamlPath, value: unknown): unknown {
  if (key === undefined) return value;
  if (Array.isArray(data))
    return data.map((item: unknown, at) => (at === key ? withValue(item, rest, value) : item));
  const own = typeof data === 'object' && data !== null ? (data as Readonly<Record<string, unknown>>) : {};
  return { ...own, [key]: withValue(own[key], rest, value) };
}

/** Data as a text, whatever the order of its keys. */
function canonical(data: unknown): string {
  return JSON.stringify(data, (_, value: unknown) =>
    typeof value === 'object' && value !== null && !Array.isArray(value)
      ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)))
      : value,
  );
}
