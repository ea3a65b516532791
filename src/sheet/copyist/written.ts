// All that this folder takes from elsewhere: the score as the sheet writes it down, before it becomes MEI.
export type { Meaning } from '../../meaning/index.js';
export { readMeaning } from '../../meaning/index.js';
export {
  type Attributes,
  abbreviated,
  type Beam,
  beamsOf,
  type Clef,
  divisionOf,
  element,
  type Head,
  headsOf,
  isRolled,
  isSameMeter,
  type Layer,
  type Measure,
  type Piece,
  QUARTER,
  type ScoreToNotate,
  type StaffBar,
  type Tuplet,
  tickOf,
  type WrittenScore,
  type WrittenStaff,
  writtenScore,
  xmlText,
} from '../notate/index.js';
