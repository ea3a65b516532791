// When notes start and end, in numbers alone: grids, pulling, rolling, loosening, compensating.

export { shareOfRoom } from './apart.js';
export { type ClampReason, type Compensated, compensate, type LateNotes } from './compensate.js';
export { startToSpeakAt } from './delay.js';
export { isExact } from './exact.js';
export { findGrid, nearestGivenPlaces } from './grid/index.js';
export { defaultSeed, type NoteKey } from './hash.js';
export { loosen } from './loosen.js';
export { murmur3 } from './murmur.js';
export { occurrences } from './occurrence.js';
export { asksForTiming, asPlayed, type GridWidth, type Move, type TimingOptions } from './options.js';
export { prerollBars } from './preroll.js';
export { pull, pulledTo } from './pull.js';
export { type RollOptions, type RollOrder, roll, rollOrders } from './roll.js';
export { formatStored, isStored, parseStored, type StoredOptions } from './stored.js';
