// Articulation maps: their types, reading, checks, conditions, marks and switch messages.

export {
  asksPrevious,
  bindCondition,
  boundsIn,
  type Condition,
  conditionSchemas,
  durationsIn,
  formatCondition,
  formatDuration,
  readCondition,
} from './conditions/index.js';
export { carryMarks } from './marks/carry.js';
export { isMarkText, type MarkEvent, markAt, readMarks } from './marks/read.js';
export { canonicalMark, knownMarks, plainMark } from './marks/vocabulary.js';
export * from './meaning/index.js';
export {
  type Bases,
  type BaseText,
  baseNamed,
  mapTexts,
  mergedMap,
  mostLinks,
  noBases,
  readMap,
} from './read/index.js';
export { schemaText as mapSchemaText } from './read/schema.generated.js';
export { forms } from './schema/index.js';
export {
  duration,
  field,
  listOf,
  number,
  parseDuration,
  parsePitch,
  present,
  type Source,
  sourceOf,
  strayPath,
  text,
} from './source/index.js';
export { byPitch, heldKeys, switchKeys, times } from './switch-keys.js';
export {
  aspectOf,
  formatMessage,
  formatMessageShort,
  isHeldKey,
  messagesOf,
  type SwitchMessage,
  sentAspectOf,
  takenBy,
  writerOf,
} from './switch-messages/index.js';
export type * from './types.js';
export { defaultChordWindow, panValues } from './types.js';
export { aspectsByWriter, channelFor, hasRoutes, hasSoundFor, switchesWith } from './uses.js';
