import type { CST } from 'yaml';

/** Deeper nesting than any file of ours has. The parser composes values by recursion, and would not come back from more. */
export const deepest = 64;

/** The offset at which tokens are nested too deeply; undefined where they are not. */
export function tooDeepAt(tokens: readonly CST.Token[]): number | undefined {
  const open: { readonly token: CST.Token; readonly depth: number }[] = tokens.map((token) => ({
    token,
    depth: 0,
  }));
  for (let next = open.pop(); next; next = open.pop()) {
    const { token } = next;
    const depth = next.depth + ('items' in token ? 1 : 0);
    if (depth > deepest) return token.offset;
    for (const inner of inside(token)) if (inner) open.push({ token: inner, depth });
  }
  return undefined;
}

function inside(token: CST.Token): readonly (CST.Token | null | undefined)[] {
  if (token.type === 'document') return [token.value];
  return 'items' in token ? token.items.flatMap(({ key, value }) => [key, value]) : [];
}
