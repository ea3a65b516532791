import { readFileSync } from 'node:fs';
import Ajv from 'ajv/dist/2020.js';

export type Schema = { readonly [key: string]: unknown };

/** The schema of maps, or of cues. */
export function readSchema(name: 'map' | 'cue'): Schema {
  return JSON.parse(readFileSync(`schemas/${name}.schema.json`, 'utf8')) as Schema;
}

/** Every schema of a `properties`, with its place. */
export function properties(node: unknown, place = '#'): readonly (readonly [string, Schema])[] {
  if (typeof node !== 'object' || node === null) return [];
  const own =
    'properties' in node
      ? Object.entries((node as { properties: Record<string, Schema> }).properties).map(
          ([key, value]) => [`${place}/${key}`, value] as const,
        )
      : [];
  return [...own, ...Object.entries(node).flatMap(([key, value]) => properties(value, `${place}/${key}`))];
}

/** What a JSON document has wrong by a schema (JSON Schema 2020-12, by ajv). */
export function validatorOf(schema: object): (document: unknown) => readonly unknown[] {
  const validate = new Ajv.default({ allErrors: true, allowUnionTypes: true }).compile(schema);
  return (document) => (validate(document) ? [] : (validate.errors ?? []));
}
