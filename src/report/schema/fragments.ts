// The words in which the schema of reports is written.
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

export const track = whole('The track, counted from 1.');
export const channel = whole('The MIDI channel, 1–16.');
export const tick = whole('Where it stands. Unit: ticks of the file.');
export const bar = orNull(whole('The bar, counted from 1; null where the music has no bars.'));
export const beat = orNull({
  type: 'number',
  description: 'The beat in its bar, counted from 1; null where there are no bars.',
});
export const pitch = whole('A MIDI note, 0–127.');
