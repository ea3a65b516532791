import type { Feature } from './features.js';
import type { Ladder, Test } from './ladder.js';

/** How a library's manual spells a MIDI note: 60 is `C3`, `C4` or `C5`. */
export type PitchName = (note: number) => string;

/** A condition as a map has it: its key, and its value as flow YAML. */
export function spellTest(test: Test, pitchName: PitchName): readonly [key: string, value: string] {
  const { feature, from, below } = test;
  if (feature.unit === 'flag') return [feature.key, String(from !== null)];
  const spelled = (value: number) => (feature.key === 'pitch' ? pitchName(value) : String(value));
  // Whole numbers are written `to`, both ends included: one less than what is out.
  const sides =
    feature.unit === 'number'
      ? [from && `from: ${spelled(from.value)}`, below && `to: ${spelled(below.value - 1)}`]
      : [from && `from: ${from.text}`, below && `below: ${below.text}`];
  return [feature.key, `{ ${sides.filter(Boolean).join(', ')} }`];
}

/** All conditions of a rule as a value of `when`, or '' for the last. */
export function spellWhen(tests: readonly Test[], pitchName: PitchName): string {
  if (tests.length === 0) return '';
  return `{ ${joinKeys(tests)
    .map((same) => spellSame(same, pitchName))
    .join(', ')} }`;
}

/** Tests of one key in two units cannot share a mapping's key: they are told apart by `all`. */
function joinKeys(tests: readonly Test[]): readonly (readonly Test[])[] {
  const keys = [...new Set(tests.map(({ feature }) => feature.key))];
  return keys.map((key) => tests.filter(({ feature }) => feature.key === key));
}

function spellSame(tests: readonly Test[], pitchName: PitchName): string {
  const [first] = tests;
  if (first && tests.length === 1) return spellTest(first, pitchName).join(': ');
  return `all: [${tests.map((test) => `{ ${spellTest(test, pitchName).join(': ')} }`).join(', ')}]`;
}

/** A ladder in words, a rule a line: `held-share below 50%`. */
export function sayTests(tests: readonly Test[], pitchName: PitchName): string {
  if (tests.length === 0) return 'everything else';
  return tests.map((test) => sayTest(test, pitchName)).join(' and ');
}

function sayTest(test: Test, pitchName: PitchName): string {
  const { feature, from, below } = test;
  if (feature.unit === 'flag') return from ? feature.key : `not ${feature.key}`;
  const spelled = (value: number) => (feature.key === 'pitch' ? pitchName(value) : String(value));
  const number = feature.unit === 'number';
  const low = from && (number ? spelled(from.value) : from.text);
  const high = below && (number ? spelled(below.value - 1) : below.text);
  if (low && high) return `${feature.key} from ${low} ${number ? 'to' : 'to below'} ${high}`;
  return low ? `${feature.key} from ${low}` : `${feature.key} ${number ? 'to' : 'below'} ${high ?? ''}`;
}

/** A bound that is not round, with its unit. */
export function sayValue(feature: Feature, value: number, pitchName: PitchName): string {
  if (feature.key === 'pitch') return pitchName(Math.round(value));
  switch (feature.unit) {
    case 'ms':
      return `${Math.round(value)}ms`;
    case 'percent':
      return `${Math.round(value * 10) / 10}%`;
    case 'whole':
      return `${Math.round(value * 1e4) / 1e4} of a whole note`;
    default:
      return String(Math.round(value * 10) / 10);
  }
}

/** Whether a ladder asks by note values, which need a tempo. */
export function asksFractions(ladder: Ladder): boolean {
  return ladder.some(({ tests }) => tests.some(({ feature }) => feature.unit === 'whole'));
}
