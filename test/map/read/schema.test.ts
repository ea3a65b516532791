import Ajv from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { properties, readSchema, type Schema } from '../../support/schema.js';

const schema = readSchema('map');

describe('the schema of maps', () => {
  it('is a JSON Schema of draft 2020-12 (checked against its meta-schema)', () => {
    const ajv = new Ajv.default({ strict: false });
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(ajv.validateSchema(schema)).toBe(true);
  });

  it('describes every key, for the editor', () => {
    const defs = schema.$defs as Readonly<Record<string, Schema>>;
    // `else` only asks for keys that are described above it.
    const undescribed = properties({ ...schema, else: {} }).filter(([, key]) => {
      const ref = typeof key.$ref === 'string' ? defs[key.$ref.slice('#/$defs/'.length)] : undefined;
      return typeof key.description !== 'string' && typeof ref?.description !== 'string';
    });
    expect(undescribed.map(([place]) => place)).toEqual([]);
    expect(properties(schema).length).toBeGreaterThan(60);
  });

  it('gives the defaults of the format', () => {
    const switching = (schema.properties as { switching: { properties: Record<string, Schema> } }).switching
      .properties;
    expect(Object.entries(switching).map(([key, value]) => [key, value.default])).toEqual([
      ['notes', 'latching'],
      ['lead', '20ms'],
      ['tap', '30ms'],
      ['velocity', 100],
      ['restate', undefined],
    ]);
  });
});
