// Looks at how the lengths of a take fall, and at how a map's bounds lie among them.
export type { Break } from './breaks.js';
export {
  type Alternative,
  type Bar,
  type BoundFinding,
  type Decide,
  type Fall,
  type MapBound,
  type Measure,
  type Suggested,
  suggest,
} from './suggest.js';
export { suggestText } from './text.js';
