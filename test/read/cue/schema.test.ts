import { readFileSync } from 'node:fs';
import Ajv from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';

type Schema = { readonly [key: string]: unknown };

const read = (name: string) => JSON.parse(readFileSync(`schemas/${name}.schema.json`, 'utf8')) as Schema;
const schema = read('cue');
const defs = schema.$defs as Readonly<Record<string, Schema>>;

/** Every schema of a `properties`, with its place. */
function properties(node: unknown, place = '#'): readonly (readonly [string, Schema])[] {
  if (typeof node !== 'object' || node === null) return [];
  const own =
    'properties' in node
      ? Object.entries((node as { properties: Record<string, Schema> }).properties).map(
          ([key, value]) => [`${place}/${key}`, value] as const,
        )
      : [];
  return [...own, ...Object.entries(node).flatMap(([key, value]) => properties(value, `${place}/${key}`))];
}

describe('the schema of cues', () => {
  it('is a JSON Schema of draft 2020-12 (checked against its meta-schema)', () => {
    const ajv = new Ajv.default({ strict: false });
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(ajv.validateSchema(schema)).toBe(true);
  });

  it('describes every key, for the editor', () => {
    const undescribed = properties(schema).filter(([, key]) => {
      const ref = typeof key.$ref === 'string' ? defs[key.$ref.slice('#/$defs/'.length)] : undefined;
      return typeof key.description !== 'string' && typeof ref?.description !== 'string';
    });
    expect(undescribed.map(([place]) => place)).toEqual([]);
    expect(properties(schema).length).toBeGreaterThan(60);
  });

  it('has the conditions of maps, to the letter', () => {
    const ofMaps = read('map').$defs as Readonly<Record<string, Schema>>;
    const shared = Object.keys(ofMaps).filter((name) => name === 'condition' || name.startsWith('when-'));
    expect(shared.length).toBeGreaterThan(14);
    for (const name of [...shared, 'duration', 'pitch', 'marks', 'mark', 'percentage', 'duration-range'])
      expect([name, defs[name]]).toEqual([name, ofMaps[name]]);
  });
});
