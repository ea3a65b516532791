// Articulation maps: their types, reading, checks, conditions, marks and switch messages.

export { bindCondition, formatCondition } from './conditions/index.js';
export { carryMarks } from './marks/carry.js';
export { type MarkEvent, readMarks } from './marks/read.js';
export { canonicalMark, knownMarks, plainMark } from './marks/vocabulary.js';
export {
  condition,
  duration,
  field,
  listOf,
  mapTexts,
  number,
  parseDuration,
  present,
  readMap,
  type Source,
  sourceOf,
  text,
} from './read/index.js';
export { schemaText as mapSchemaText } from './read/schema.generated.js';
export { channelFor, slotOf } from './slot.js';
export { byPitch, switchKeys, times } from './switch-keys.js';
export type * from './types.js';
export { defaultChordWindow } from './types.js';
