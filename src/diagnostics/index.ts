// What is wrong and where: codes, diagnostics, and how they are told.
export { codes, type DiagnosticCode } from './codes.js';
export type { Diagnostic, Outcome, Place, Severity } from './diagnostic.js';
export { escapeText } from './escape.js';
export { diagnosticJson, formatDiagnostic, formatPlace } from './format.js';
export { nearest } from './nearest.js';
export { spellPitch } from './pitch.js';
export { plural } from './plural.js';
export { quoted } from './quote.js';
