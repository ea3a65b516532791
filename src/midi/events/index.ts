// The events of a track in columns: how they are read, put together and changed.

export {
  arranged,
  merged,
  withChannels,
  withFirstData,
  withMessages,
  withoutEvents,
  withSecondData,
} from './arrange.js';
export { EventBuilder } from './builder.js';
export { GrowingEvents } from './columns.js';
export { controllerEvents } from './controllers.js';
export {
  channelOf,
  dataOf,
  type Events,
  endOf,
  firstData,
  isChannelMessage,
  isEndOfTrack,
  isNoteOff,
  isNoteOn,
  isRunning,
  kindOf,
  lastTick,
  longData,
  metaType,
  nextMeta,
  nextStatus,
  secondData,
  statusOf,
  tickOf,
} from './events.js';
export { Insertions } from './insertions.js';
export {
  controllerMessage,
  type Message,
  messageAt,
  messageBytes,
  messageKind,
  messageOf,
  noteOff,
  noteOn,
  programMessage,
  releaseVelocity,
} from './message.js';
export { metaTypes, wordTypes } from './meta.js';
export { Numbers } from './numbers.js';
export { type Column, picked } from './picked.js';
export { placesBefore } from './places.js';
export { behindQuantity, isDelta, longestDelta, putQuantity, quantity, saysQuantity } from './quantity.js';
export { type Ticks, ticksUpTo } from './ticks.js';
