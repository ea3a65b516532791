import { escapeText, spellPitch } from '../../diagnostics/index.js';
import { type ArticulationMap, formatCondition, type Rule } from '../../map/index.js';
import type { Line } from '../../midi/index.js';
import type { Decision } from './decision.js';

/**
 * Why a note got its articulation, in one line.
 *
 * @param line that the note stands in: with it, of several conditions any of which would do only those that held are named
 */
export function reason(map: ArticulationMap, decision: Decision, line?: Line): string {
  const { decidedBy } = decision;
  if (!decidedBy) return ownReason(map, decision, line);
  const by = spellPitch(decidedBy.pitch, map.middleC);
  return `${ownReason(map, { ...decision, note: decidedBy }, line)}, by ${by} of its chord`;
}

function ownReason(map: ArticulationMap, decision: Decision, line: Line | undefined): string {
  const { rule, mark, insteadOf, note } = decision;
  if (rule === 'marked') return `marked [${mark ?? ''}]`;
  const decided = map.rules[rule];
  const other = insteadOf === undefined ? undefined : map.rules[insteadOf];
  if (!decided) return '';
  if (other) {
    const measured = other.when ? formatCondition(other.when, note) : 'nothing else fits';
    return `stays with ${ruleName(decided)} by steadiness; ${ruleName(other)} by a hair: ${measured}`;
  }
  return `${ruleName(decided)}: ${conditions(decided, decision, line)}`;
}

function conditions(rule: Rule, { note, previous }: Decision, line: Line | undefined): string {
  const standing = line && { line, ...(previous === undefined ? {} : { previous }) };
  const marks = rule.marked?.filter((mark) => note.marks.has(mark)) ?? [];
  const said = [
    ...(marks.length > 0 ? [`marked ${marks.map((mark) => `[${mark}]`).join(' ')}`] : []),
    ...(rule.when ? [formatCondition(rule.when, note, standing)] : []),
  ];
  return said.length > 0 ? said.join(', ') : 'no condition, nothing above it fits';
}

function ruleName({ index, place }: Rule): string {
  return place.kind === 'text' ? `${escapeText(place.file)}:${place.line}` : `rule with index ${index}`;
}
