import { stringify } from 'yaml';
import { isError, type Outcome } from '../../diagnostics/index.js';
import { parseYaml } from '../../yaml/index.js';
import { type Bases, noBases, ownPath, withBases } from './base.js';
import { schemaText } from './schema.generated.js';

/** A map with all that its bases lend it, as YAML; the same errors as in readMap, as far as they concern the chain. */
export function mergedMap(bytes: Uint8Array, file: string, bases: Bases = noBases): Outcome<string> {
  const { value: own, diagnostics: ofOwn } = parseYaml(bytes, file);
  if (!own) return { value: undefined, diagnostics: ofOwn };
  const { yaml, diagnostics } = withBases(own, bytes.length, bases, ownPath(file, bases));
  const { data } = yaml.root;
  const { base: _, ...rest } = { ...(typeof data === 'object' ? data : {}) } as Record<string, unknown>;
  const found = [...ofOwn, ...diagnostics];
  const text = stringify(inOrderOfSchema(rest), { aliasDuplicateObjects: false, lineWidth: 110 });
  return { value: found.some(isError) ? undefined : text, diagnostics: found };
}

/** What is lent stands where it would stand in a map of one file. */
function inOrderOfSchema(map: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const { properties }: { properties: object } = JSON.parse(schemaText);
  const keys = Object.keys(properties).filter((key) => Object.hasOwn(map, key));
  return { ...Object.fromEntries(keys.map((key) => [key, map[key]])), ...map };
}
