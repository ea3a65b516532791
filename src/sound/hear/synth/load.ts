import type { BasicSoundBank } from 'spessasynth_core';
import { checkBank } from '../bank/index.js';
import { failed, found, type Result } from '../problem.js';
import type { Library } from './library.js';

/** Unfolds a bank whose structure and sizes were checked. What the library still throws is told as a problem. */
export function loadBank(library: Library, bytes: Uint8Array): Result<BasicSoundBank> {
  const checked = checkBank(bytes);
  if (!checked.ok) return checked;
  try {
    // a buffer of its own begins where the bank does
    const isWhole = bytes.byteOffset === 0 && bytes.byteLength === bytes.buffer.byteLength;
    const buffer = isWhole && bytes.buffer instanceof ArrayBuffer ? bytes.buffer : bytes.slice().buffer;
    const bank = library.SoundBankLoader.fromArrayBuffer(buffer);
    if (bank.presets.length > 0) return found(bank);
    return failed('bank-structure', 'the bank has no preset');
  } catch (error) {
    return failed('bank-structure', `the bank cannot be read: ${sentenceOf(error)}`);
  }
}

/** The first line of what was thrown, without the library's decoration. */
export function sentenceOf(error: unknown): string {
  const [line = ''] = (error instanceof Error ? error.message : String(error)).split('\n');
  return line.slice(0, 200);
}
