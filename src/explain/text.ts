import type { CompiledPart } from '../compile/index.js';
import { sayCondition } from '../decide/conditions/index.js';
import { escapeText } from '../diagnose/escape.js';
import { spellPitch } from '../diagnose/pitch.js';
import type { Decision } from '../model/decision.js';
import type { ArticulationMap, Rule } from '../model/map.js';
import type { Move } from '../model/timing.js';

/** Which notes are explained: those whose bar and beat lie within, both ends inclusive. */
export type Within = (tick: number) => boolean;

/** Says for each note of a part which rule decided, with its line in the map and what was measured. */
export function explainPart(part: CompiledPart, within: Within = () => true): readonly string[] {
  const rows = part.decisions.flatMap((decision, index) =>
    within(decision.note.tick) ? [row(part, decision, index)] : [],
  );
  const widths = [0, 1, 2].map((column) =>
    rows.reduce((widest, cells) => Math.max(widest, (cells[column] ?? '').length), 0),
  );
  const heading = `Track ${part.part.track} "${escapeText(part.part.trackName)}", channel ${part.part.channel + 1}: ${escapeText(part.map.library)}, ${escapeText(part.map.instrument)}`;
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

function row(part: CompiledPart, decision: Decision, index: number): readonly string[] {
  const switchTick = part.realised.switchTicks[index] ?? null;
  const { note } = decision;
  const position = part.line.clock.position(note.tick);
  const place = position ? `${position.bar}.${position.beat}` : `tick ${note.tick}`;
  const switched = switchTick === null ? '' : ` · switched at tick ${switchTick}`;
  return [
    place,
    spellPitch(note.pitch, part.map.middleC),
    decision.articulation,
    `${reason(part.map, decision)}${switched}${sayMove(part.retimed.moves[index])}`,
  ];
}

/** ` · pull −3.1 ms, compensate −40 ms`: what moved the note. */
function sayMove(move: Move | undefined): string {
  if (!move) return '';
  const steps = Object.entries(move).map(
    ([step, ms]: [string, number]) => `${step} ${ms < 0 ? '−' : '+'}${Math.round(Math.abs(ms) * 10) / 10} ms`,
  );
  return ` · ${steps.join(', ')}`;
}

/** Why a note got its articulation, in one line. */
export function reason(map: ArticulationMap, decision: Decision): string {
  const { decidedBy } = decision;
  if (!decidedBy) return ownReason(map, decision);
  const by = spellPitch(decidedBy.pitch, map.middleC);
  return `${ownReason(map, { ...decision, note: decidedBy })}, by ${by} of its chord`;
}

function ownReason(map: ArticulationMap, decision: Decision): string {
  const { rule, mark, insteadOf, note } = decision;
  if (rule === 'marked') return `marked [${mark ?? ''}]`;
  const decided = map.rules[rule];
  const other = insteadOf === undefined ? undefined : map.rules[insteadOf];
  if (!decided) return '';
  if (other) {
    const measured = other.when ? sayCondition(other.when, note) : 'nothing else fits';
    return `stays with ${ruleName(decided)} by hysteresis; ${ruleName(other)} by a hair: ${measured}`;
  }
  return `${ruleName(decided)}: ${conditions(decided, decision)}`;
}

function conditions(rule: Rule, { note }: Decision): string {
  const marks = rule.marked?.filter((mark) => note.marks.has(mark)) ?? [];
  const said = [
    ...(marks.length > 0 ? [`marked ${marks.map((mark) => `[${mark}]`).join(' ')}`] : []),
    ...(rule.when ? [sayCondition(rule.when, note)] : []),
  ];
  return said.length > 0 ? said.join(', ') : 'no condition, nothing above it fits';
}

function ruleName({ index, place }: Rule): string {
  return place.kind === 'text' ? `${escapeText(place.file)}:${place.line}` : `rule with index ${index}`;
}
