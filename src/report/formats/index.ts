// What commands found, in the formats that code hosts and runners of tests read.
export { changeDiagnostics, meaningLost } from './changes.js';
export { githubText } from './github.js';
export { junitText } from './junit.js';
export type { Findings, Looked } from './report.js';
export { sarifLog } from './sarif.js';
export { takeDiagnostics } from './takes.js';
