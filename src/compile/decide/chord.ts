import { type Diagnostic, diagnostic, quoted } from '../../diagnostics/index.js';
import { type ArticulationMap, channelFor } from '../../map/index.js';
import { type Line, musicPlace } from '../../midi/index.js';
import type { Decision } from './decision.js';

/**
 * Settles a chord whose notes were decided one by one. Notes on channels of their own keep what they asked for; on
 * one channel the highest note decides for all, and the others are reported.
 */
export function settleChord(
  decisions: readonly Decision[],
  line: Line,
  map: ArticulationMap,
): { readonly decisions: readonly Decision[]; readonly diagnostics: readonly Diagnostic[] } {
  const highest = new Map<number, Decision>();
  for (const decision of decisions) {
    const channel = channelFor(map, decision.articulation, line.part.channel);
    const top = highest.get(channel);
    if (!top || decision.note.pitch > top.note.pitch) highest.set(channel, decision);
  }
  const diagnostics: Diagnostic[] = [];
  const settled = decisions.map((decision) => {
    const top = highest.get(channelFor(map, decision.articulation, line.part.channel));
    if (!top || top.articulation === decision.articulation) return decision;
    diagnostics.push(conflict(decision, top, line));
    return { ...top, note: decision.note, decidedBy: top.note };
  });
  return { decisions: settled, diagnostics };
}

function conflict(decision: Decision, top: Decision, line: Line): Diagnostic {
  return diagnostic(
    'chord-conflict',
    musicPlace(line, decision.note.tick),
    `note ${decision.note.pitch} asks for ${quoted(decision.articulation)}, but note ${top.note.pitch}, struck with it, needs ${quoted(top.articulation)} on the same channel`,
    'the higher note decides; give the articulations channels of their own where the library allows it',
  );
}
