import type { Diagnostic, Place } from './diagnostic.js';
import { formatDiagnostic, type Style } from './format.js';
import { plural } from './plural.js';

/** From how many on what is alike is told once. */
const many = 3;
const pitches = /\b([A-G])(#?)(-?\d{1,2})\b/gu;
const times = /\((?:once|(\d+) times[^)]*)\)/u;
const steps: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/**
 * Diagnostics as people read them: those with one code, of one track or file, that differ in nothing but the note and the
 * place are one, with how many there are, their pitches and their bars or lines. Errors in texts are told each, since each is to be
 * mended. Order is that of the first ones.
 */
export function formatDiagnostics(
  diagnostics: readonly Diagnostic[],
  style: Style = { color: false },
): readonly string[] {
  const groups = new Map<string, Diagnostic[]>();
  for (const [index, one] of diagnostics.entries()) {
    const key = keyOf(one) ?? String(index);
    const group = groups.get(key);
    if (group) group.push(one);
    else groups.set(key, [one]);
  }
  return [...groups.values()].flatMap((group) =>
    group.length < many
      ? group.map((one) => formatDiagnostic(one, style))
      : [formatDiagnostic(asOne(group), style)],
  );
}

function keyOf({ code, severity, place, message, hint }: Diagnostic): string | undefined {
  if (place.kind !== 'music' && (place.kind !== 'text' || severity === 'error')) return undefined;
  const track = place.kind === 'music' ? `${place.track} ${place.trackName}` : '';
  const form = message.replace(times, '').replace(pitches, '');
  return JSON.stringify([code, place.kind, place.file, track, form, hint]);
}

/** The first of several, with what the others add to it. */
function asOne(group: readonly Diagnostic[]): Diagnostic {
  const [first] = group as [Diagnostic];
  const count = group.reduce((sum, one) => sum + timesOf(one), 0);
  const range = pitchRange(group);
  const counted = range === undefined ? `${count} times` : `${plural(count, 'note')}, ${range}`;
  const said = [counted, ...stretchOf(group, count)].join(', ');
  return { ...first, message: `${said}; the first: ${first.message}` };
}

function timesOf({ message }: Diagnostic): number {
  return Number(times.exec(message)?.[1] ?? 1);
}

/** The lowest and the highest of the first pitches in which messages differ; undefined where they do not. */
function pitchRange(group: readonly Diagnostic[]): string | undefined {
  const all = group.map(({ message }) => [...message.matchAll(pitches)].map(([text]) => text));
  const place = all[0]?.findIndex((text, index) => all.some((one) => one[index] !== text)) ?? -1;
  if (place < 0) return undefined;
  const found = all.flatMap((one) => one[place] ?? []).sort((a, b) => heightOf(a) - heightOf(b));
  return `${found[0]}–${found.at(-1)}`;
}

function heightOf(pitch: string): number {
  const [, letter = 'C', sharp = '', octave = '0'] = new RegExp(pitches.source, 'u').exec(pitch) ?? [];
  return Number(octave) * 12 + (steps[letter] ?? 0) + sharp.length;
}

/** Where they are: bars, as far as each diagnostic is one note, or lines. */
function stretchOf(group: readonly Diagnostic[], count: number): readonly string[] {
  const numbers = group.flatMap(({ place }) => numberOf(place) ?? []).sort((a, b) => a - b);
  const [from] = numbers;
  const to = numbers.at(-1);
  if (from === undefined || to === undefined) return [];
  if (group[0]?.place.kind === 'text') return [from === to ? `line ${from}` : `lines ${from}–${to}`];
  if (count > group.length) return [`from bar ${from} on`];
  return [from === to ? `bar ${from}` : `bars ${from}–${to}`];
}

function numberOf(place: Place): number | null {
  if (place.kind === 'text') return place.line;
  return place.kind === 'music' ? place.bar : null;
}
