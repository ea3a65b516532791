/** Everything that measuring takes from the rest of keyslip, in one place. */
export { escapeText, plural, spellPitch } from '../../diagnostics/index.js';
export { dynamicMarks, identityLevels, type LevelTable, seatOfDifference } from '../../dynamics/index.js';
export {
  type Articulation,
  type ArticulationMap,
  isHeldKey,
  messagesOf,
  panValues,
  type SwitchMessage,
} from '../../map/index.js';
export { type Duration, EventBuilder, messageBytes, newFile } from '../../midi/index.js';
export { murmur3 } from '../../timing/index.js';
export { edited, type NotEdited, openYaml } from '../../yaml/index.js';
