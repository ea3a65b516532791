/** Whether a YAML file says that it is a cue; what it is otherwise is for its reader to say. */
export function isCue(bytes: Uint8Array): boolean {
  const text = new TextDecoder('utf-8').decode(bytes.subarray(0, 64 * 1024));
  return /^\uFEFF?\{?\s*["']?format["']?\s*:\s*["']?keyslip-cue\b/mu.test(text);
}
