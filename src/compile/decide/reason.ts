import { escapeText, spellPitch } from '../../diagnostics/index.js';
import { type ArticulationMap, formatCondition, type Rule } from '../../map/index.js';
import type { Decision } from './decision.js';

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
    const measured = other.when ? formatCondition(other.when, note) : 'nothing else fits';
    return `stays with ${ruleName(decided)} by steadiness; ${ruleName(other)} by a hair: ${measured}`;
  }
  return `${ruleName(decided)}: ${conditions(decided, decision)}`;
}

function conditions(rule: Rule, { note }: Decision): string {
  const marks = rule.marked?.filter((mark) => note.marks.has(mark)) ?? [];
  const said = [
    ...(marks.length > 0 ? [`marked ${marks.map((mark) => `[${mark}]`).join(' ')}`] : []),
    ...(rule.when ? [formatCondition(rule.when, note)] : []),
  ];
  return said.length > 0 ? said.join(', ') : 'no condition, nothing above it fits';
}

function ruleName({ index, place }: Rule): string {
  return place.kind === 'text' ? `${escapeText(place.file)}:${place.line}` : `rule with index ${index}`;
}
