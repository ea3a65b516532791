import type { DiagnosticCode } from '../../diagnose/codes.js';
import { nearest } from '../../diagnose/nearest.js';
import { quoted } from '../../diagnose/quote.js';
import type { Diagnostic, Severity } from '../../model/diagnostic.js';
import { canonicalMark, knownMarks, plainMark } from '../../understand/marks/vocabulary.js';
import type { ReadYaml } from '../yaml/parse.js';
import { type Path, placeOf } from '../yaml/places.js';
import { parsePitch } from './pitch.js';
import type { RawMap, RawPitch } from './raw.js';

/** What the parts of a map are built with: the document, and a place for what is found wrong on the way. */
export interface Context {
  readonly yaml: ReadYaml;
  readonly raw: RawMap;
  readonly middleC: 3 | 4 | 5;
  report(code: DiagnosticCode, severity: Severity, path: Path, message: string, hint: string): void;
}

export function contextOf(yaml: ReadYaml, problems: Diagnostic[]): Context {
  const raw = yaml.root.data as RawMap;
  const octave = Number(raw['note-60'].slice(1));
  return {
    yaml,
    raw,
    middleC: octave === 3 ? 3 : octave === 4 ? 4 : 5,
    report: (code, severity, path, message, hint) =>
      void problems.push({ code, severity, place: placeOf(yaml, path), message, hint }),
  };
}

/** A pitch, or 0 and a report (bad-pitch) where no MIDI note is meant. */
export function pitchAt(context: Context, text: RawPitch, path: Path): number {
  const note = parsePitch(text, context.middleC);
  if (note === undefined)
    context.report(
      'bad-pitch',
      'error',
      path,
      `${quoted(String(text))} is no MIDI note where note 60 is ${context.raw['note-60']}`,
      'notes go from 0 to 127; see that note-60 is as in the manual',
    );
  return note ?? 0;
}

/** A mark under the name by which it is compared, or itself and a report (unknown-mark). */
export function markAt(context: Context, text: string, path: Path): string {
  const plain = plainMark(text);
  if (Object.hasOwn(context.raw.articulations, plain)) return plain;
  const mark = canonicalMark(plain);
  if (mark !== undefined) return mark;
  const near = nearest(plain, [...Object.keys(context.raw.articulations), ...knownMarks]);
  const hint =
    near === undefined
      ? 'marks are MusicXML articulation names, playing words, and names of this map'
      : `did you mean "${near}"?`;
  context.report('unknown-mark', 'error', path, `${quoted(text)} is no mark that is known`, hint);
  return plain;
}

/** The name of an articulation of the map; a report (unknown-articulation) where it is none. */
export function articulationAt(context: Context, name: string, path: Path): string {
  const names = Object.keys(context.raw.articulations);
  if (Object.hasOwn(context.raw.articulations, name)) return name;
  const near = nearest(name, names);
  const hint =
    near === undefined ? `the map has ${names.slice(0, 20).join(', ')}` : `did you mean "${near}"?`;
  context.report(
    'unknown-articulation',
    'error',
    path,
    `${quoted(name)} is no articulation of this map`,
    hint,
  );
  return name;
}
