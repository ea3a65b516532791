// The vocabulary of instruments: what names and programs tell, families and ranges.
export type { PitchRange } from './pitch-range.js';
export { type Instrument, type InstrumentName, instrumentNamed, instruments } from './ranges.js';
export {
  type InstrumentKind,
  instrumentKinds,
  instrumentOf,
  isStruck,
  isUnpitched,
  kindOf,
} from './vocabulary.js';
