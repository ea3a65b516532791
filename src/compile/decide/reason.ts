import { escapeText, plural, spellPitch } from '../../diagnostics/index.js';
import { type ArticulationMap, formatCondition, type Rule } from '../../map/index.js';
import type { Line } from '../../midi/index.js';
import type { Decision, Kept } from './decision.js';
import type { NearBound } from './nearby.js';

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
  const { rule, mark, insteadOf, kept } = decision;
  if (rule === 'marked') return `marked [${mark ?? ''}]`;
  const decided = map.rules[rule];
  const other = insteadOf === undefined ? undefined : map.rules[insteadOf];
  if (!decided) return '';
  if (other && kept) return keptReason(decided, other, kept);
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

/** What it measured, the bound that it was near, and which neighbours it was kept with. */
function keptReason(decided: Rule, other: Rule, { near, before, after }: Kept): string {
  const measured = near.map(formatNear).join(', ');
  const around = [
    ...(before > 0 ? [`the ${plural(before, 'onset')} before it`] : []),
    ...(after > 0 ? [`the ${plural(after, 'onset')} after it`] : []),
  ];
  const neighbours = around.length > 0 ? around.join(' and ') : 'its neighbours';
  return `${ruleName(decided)}: kept with ${neighbours}; ${measured}, for which ${ruleName(other)} alone would give ${other.use}`;
}

/** `held 137 ms, near 130 ms`. */
function formatNear({ measure, value, at, unit }: NearBound): string {
  const said = (amount: number) => {
    if (unit === 'share') return `${Math.round(amount * 1000) / 10} %`;
    return `${Math.round(amount * 10) / 10} ${unit}`;
  };
  const of = measure === 'held-share' ? 'held for' : measure;
  return `${of} ${said(value)}${unit === 'share' ? ' of the interval' : ''}, near ${said(at)}`;
}
