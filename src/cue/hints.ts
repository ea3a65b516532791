import type { Diagnostic } from '../diagnostics/index.js';

const phrases: readonly (readonly [RegExp, string])[] = [
  [/^--preroll (\d+)/u, 'preroll: $1 in the cue'],
  [/--channel NUMBER/u, 'channel: NUMBER'],
];

/** The same with hints that speak of the keys of a cue instead of options. */
export function inTermsOfCues(diagnostic: Diagnostic): Diagnostic {
  const { hint } = diagnostic;
  if (hint === undefined) return diagnostic;
  return { ...diagnostic, hint: phrases.reduce((text, [from, to]) => text.replace(from, to), hint) };
}
