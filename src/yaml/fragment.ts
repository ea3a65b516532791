/** A piece of a JSON Schema (2020-12), as plain data. */
export type Fragment = { readonly [keyword: string]: unknown };

/** A value as one of the schema's definitions wants it; what is said here stands in place of the definition's words. */
export function refersTo(definition: string, more: Fragment = {}): Fragment {
  return { $ref: `#/$defs/${definition}`, ...more };
}
