// What programs call: bytes and text in; results and diagnostics out.
export { proofOf } from './proof.js';
