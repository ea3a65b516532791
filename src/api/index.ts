// What programs call: bytes and text in; bytes, notes and diagnostics out.

export { type AsHeard, asHeard } from './as-heard.js';
export { type CheckMapOptions, type CheckMapResult, checkMap } from './check-map.js';
export { type CompileOptions, type CompileResult, compile } from './compile.js';
export { type InspectOptions, type InspectResult, inspect } from './inspect.js';
export type { MusicOptions, TimingChoice } from './music.js';
export type { GivenMap } from './parts.js';
export { proofOf } from './proof.js';
export { type ProveOptions, type ProveResult, prove } from './prove.js';
export { type SheetOptions, type SheetResult, sheet } from './sheet.js';
export { withoutSwitches } from './without-switches.js';
