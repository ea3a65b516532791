import { type Fragment, refersTo } from '../../yaml/index.js';
import { combinedKinds, measuredKinds } from './list.js';

/** The definitions of the schemas that conditions bring with them: a fragment for each kind, and the mapping of all. */
export function conditionSchemas(): Fragment {
  const kinds = [...measuredKinds, ...combinedKinds];
  return {
    ...Object.fromEntries(kinds.map(({ key, schema }) => [`when-${key}`, schema])),
    condition: {
      description: 'What a note must be like; all keys that are given must hold.',
      type: 'object',
      additionalProperties: false,
      minProperties: 1,
      properties: Object.fromEntries(kinds.map(({ key }) => [key, refersTo(`when-${key}`)])),
    },
  };
}
