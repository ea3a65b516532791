// What is wrong and where: codes, diagnostics, and how they are told.
export { type CodeMeaning, codes, type DiagnosticCode, type Severity } from './codes.js';
export { type Diagnostic, diagnostic, isError, type Outcome, type Place, withErrors } from './diagnostic.js';
export { escapeLines, escapeText, spellUnsafe } from './escape.js';
export { diagnosticJson, formatDiagnostic, formatPlace } from './format.js';
export { formatDiagnostics } from './grouped.js';
export { nearest } from './nearest.js';
export { spellPitch, spellShift } from './pitch.js';
export { plural } from './plural.js';
export { quoted } from './quote.js';
