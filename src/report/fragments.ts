/** A piece of a JSON Schema. */
export type Fragment = Readonly<Record<string, unknown>>;

export const text = (description: string): Fragment => ({ type: 'string', description });
export const whole = (description: string): Fragment => ({ type: 'integer', description });
export const orNull = (fragment: Fragment): Fragment => ({ ...fragment, type: [fragment.type, 'null'] });
export const yes = (description: string): Fragment => ({ type: 'boolean', description });
export const listOf = (items: Fragment, description: string): Fragment => ({
  type: 'array',
  items,
  description,
});
/** What stands in the schema's `$defs`. */
export const ref = (name: string): Fragment => ({ $ref: `#/$defs/${name}` });
/** An object with these names and no others. */
export const closed = (
  properties: Readonly<Record<string, Fragment>>,
  ...required: readonly string[]
): Fragment => ({
  type: 'object',
  properties,
  required,
  additionalProperties: false,
});
export const number = (description: string): Fragment => ({ type: 'number', description });
