/** A piece of a JSON Schema (2020-12), as plain data. */
export type Fragment = { readonly [keyword: string]: unknown };

/** A value as one of the schema's definitions wants it; what is said here stands in place of the definition's words. */
export function refersTo(definition: string, more: Fragment = {}): Fragment {
  return { $ref: `#/$defs/${definition}`, ...more };
}

/** One value, or a list; its items are like the single value unless another definition is named. */
export function oneOrList(single: string, limits: Fragment = {}, item: string = single): Fragment {
  return {
    if: { type: 'array' },
    // biome-ignore lint/suspicious/noThenProperty: the keyword of JSON Schema.
    then: { type: 'array', items: refersTo(item), ...limits },
    else: refersTo(single),
  };
}
