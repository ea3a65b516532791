import type { Stored } from '../compile/index.js';
import { escapeText } from '../diagnostics/index.js';

/** What is told of options that a file was compiled with, where they were used; nothing where there are none. */
export function toldOptions(stored: Stored | undefined): string {
  if (!stored) return '';
  const lines = stored.texts.map((text) => `  ${escapeText(text.replace(/^\S+ /u, ''))}`);
  return ['', 'The file says that it was compiled with:', ...lines, ''].join('\n');
}
