import {
  articulationOf,
  type CompiledPart,
  type Decision,
  onsetOf,
  placesOf,
  reason,
  type SentNote,
} from '../compile/index.js';
import { escapeText, spellPitch } from '../diagnostics/index.js';
import { playersOffset } from '../dynamics/index.js';
import { noteTick, type Position, partHeading, pitchOf } from '../midi/index.js';
import type { Move } from '../timing/index.js';

/** Which notes are explained: those whose bar and beat lie within, both ends inclusive. */
export type Within = (place: Position | null) => boolean;

/**
 * Says for each note of a part which rule decided, with its line in the map and what was measured.
 *
 * @returns the lines, each made when it is come to: 200,000 of them are 20 MB
 */
export function* explainPart(part: CompiledPart, within: Within = () => true): Generator<string> {
  const { map } = part;
  yield `${partHeading(part.part)}: ${escapeText(map.library)}, ${escapeText(map.instrument)}`;
  const placeOf = placesOf(part.line);
  const column = columnsOf(part, placeOf);
  const rows = rowsWithin(part, placeOf, within);
  const width = column.map((textOf) => rows.reduce((most, row) => Math.max(most, textOf(row).length), 0));
  for (const row of rows) {
    const cells = column.map((textOf, index) => textOf(row).padEnd(width[index] ?? 0));
    yield `  ${[...cells, whyOf(part, row)].join('  ').trimEnd()}`;
  }
}

function rowsWithin(
  { decided }: CompiledPart,
  placeOf: (onset: number) => Position | null,
  within: Within,
): Uint32Array {
  return Uint32Array.from({ length: decided.length }, (_, row) => row).filter((row) =>
    within(placeOf(onsetOf(decided, row))),
  );
}

/** What stands before the reason: place, pitch, articulation. */
function columnsOf(
  { decided, map }: CompiledPart,
  placeOf: (onset: number) => Position | null,
): readonly ((row: number) => string)[] {
  const pitches = Array.from({ length: 128 }, (_, pitch) => spellPitch(pitch, map.middleC));
  return [
    (row) => {
      const place = placeOf(onsetOf(decided, row));
      return place ? `${place.bar}.${place.beat}` : `tick ${noteTick(decided, row)}`;
    },
    (row) => pitches[pitchOf(decided, row)] ?? '',
    (row) => articulationOf(decided, row),
  ];
}

/** Why a note got its articulation, and what is done with it. */
function whyOf(part: CompiledPart, row: number): string {
  const { map, line, switched, retimed } = part;
  const decision = part.decided.decision(row);
  const switchTick = switched.switchTickOf(row);
  return [
    reason(map, decision, line),
    switchTick === null ? '' : ` · switched at tick ${switchTick}`,
    formatPlayers(part, decision),
    formatSent(part, decision, switched.sent.at(row)),
    formatMove(retimed.moves[row]),
  ].join('');
}

/** ` · 3 of 12 players, −6.0 dB`: who plays a note of a divided part, and how much softer that is. */
function formatPlayers({ playersOf }: CompiledPart, { note }: Decision): string {
  if (!playersOf) return '';
  const { playing, of } = playersOf(note);
  if (playing === of) return '';
  const by = Math.abs(playersOffset(playing, of)).toFixed(1);
  return ` · ${playing} of ${of} players, −${by} dB`;
}

/** ` · sent as D2, velocity 31, channel 3`: what the library is sent in place of what was played. */
function formatSent(
  { part, map }: CompiledPart,
  { note: { pitch, velocity } }: Decision,
  sent: SentNote | undefined,
): string {
  if (!sent) return '';
  const said = [
    ...(sent.pitch === pitch ? [] : [`as ${spellPitch(sent.pitch, map.middleC)}`]),
    ...(sent.velocity === velocity ? [] : [`velocity ${sent.velocity}`]),
    ...(sent.channel === part.channel ? [] : [`channel ${sent.channel + 1}`]),
  ];
  return said.length === 0 ? '' : ` · sent ${said.join(', ')}`;
}

/** ` · pull −3.1 ms, compensate −40 ms`: what moved the note. */
function formatMove(move: Move | undefined): string {
  if (!move) return '';
  const steps = Object.entries(move).map(
    ([step, ms]: [string, number]) => `${step} ${ms < 0 ? '−' : '+'}${Math.round(Math.abs(ms) * 10) / 10} ms`,
  );
  return ` · ${steps.join(', ')}`;
}
