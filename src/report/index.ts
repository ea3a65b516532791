// Every text and JSON that tells people what was decided, proved and compared.

export { type Comparison, comparisonJson, comparisonText, counts } from './comparison.js';
export { type Report, type ReportedPart, type ReportNote, report, reportInPieces } from './decisions.js';
export { explainPart } from './explanation.js';
export {
  changeDiagnostics,
  type Findings,
  githubText,
  junitText,
  type Looked,
  meaningLost,
  sarifLog,
  takeDiagnostics,
} from './formats/index.js';
export { type MovedPart, movedJson, movedText } from './moved-text.js';
export { proofJson, proofText } from './proof.js';
export { reportSchema } from './schema/index.js';
export { summary } from './summary.js';
export { takesJson, takesText } from './takes-text.js';
