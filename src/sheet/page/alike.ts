import type { Sheet, SheetRemark } from '../types.js';

/** So many remarks of a kind are told each for itself. */
const most = 3;

/**
 * Remarks in the order in which they were found, with those together of which there are many of a kind: warnings of one
 * code; observations that differ in nothing but numbers, pitches and the names of parts.
 */
export function alikeTogether({
  remarks,
  parts,
}: Pick<Sheet, 'remarks' | 'parts'>): readonly (readonly SheetRemark[])[] {
  const names = parts
    .map(({ name }) => name)
    .filter((name) => name !== '')
    .sort((a, b) => b.length - a.length);
  const kinds = new Map<string, SheetRemark[]>();
  for (const remark of remarks) {
    const kind = remark.code ?? kindOf(remark.text, names);
    const known = kinds.get(kind);
    if (known) known.push(remark);
    else kinds.set(kind, [remark]);
  }
  const first = new Map([...kinds.values()].map((group) => [group[0], group]));
  const many = new Set([...kinds.values()].filter((group) => group.length > most).flat());
  return remarks.flatMap((remark) => {
    if (!many.has(remark)) return [[remark]];
    const group = first.get(remark);
    return group ? [group] : [];
  });
}

function kindOf(text: string, names: readonly string[]): string {
  const nameless = names.reduce((left, name) => left.replaceAll(name, '…'), text);
  return nameless
    .replace(/\([^)]*\)/gu, '')
    .replace(/\b[A-G](?:#|b)?-?\d+\b|\d+(?:\.\d+)?/gu, '0')
    .replace(/0(?:[–, ]+0)+/gu, '0');
}
