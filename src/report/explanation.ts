import { type CompiledPart, type Decision, placesOf, reason, type SentNote } from '../compile/index.js';
import { escapeText, spellPitch } from '../diagnostics/index.js';
import { playersOffset } from '../dynamics/index.js';
import { type Position, partHeading } from '../midi/index.js';
import type { Move } from '../timing/index.js';

/** Which notes are explained: those whose bar and beat lie within, both ends inclusive. */
export type Within = (place: Position | null) => boolean;

/** Says for each note of a part which rule decided, with its line in the map and what was measured. */
export function explainPart(part: CompiledPart, within: Within = () => true): readonly string[] {
  const places = placesOf(part.line);
  const rows = part.decisions.flatMap((decision, index) => {
    const place = places[decision.note.onset] ?? null;
    return within(place) ? [row(part, decision, index, place)] : [];
  });
  const widths = [0, 1, 2].map((column) =>
    rows.reduce((widest, cells) => Math.max(widest, (cells[column] ?? '').length), 0),
  );
  const heading = `${partHeading(part.part)}: ${escapeText(part.map.library)}, ${escapeText(part.map.instrument)}`;
  return [
    heading,
    ...rows.map(
      (cells) =>
        `  ${cells
          .map((cell, column) => cell.padEnd(widths[column] ?? 0))
          .join('  ')
          .trimEnd()}`,
    ),
  ];
}

function row(
  part: CompiledPart,
  decision: Decision,
  index: number,
  position: Position | null,
): readonly string[] {
  const switchTick = part.switched.switchTicks[index] ?? null;
  const { note } = decision;
  const place = position ? `${position.bar}.${position.beat}` : `tick ${note.tick}`;
  const switched = switchTick === null ? '' : ` · switched at tick ${switchTick}`;
  return [
    place,
    spellPitch(note.pitch, part.map.middleC),
    decision.articulation,
    `${reason(part.map, decision, part.line)}${switched}${formatPlayers(part, decision)}${formatSent(part, decision, part.switched.sent.at(index))}${formatMove(part.retimed.moves[index])}`,
  ];
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
