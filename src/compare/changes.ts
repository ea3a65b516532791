import { type Decision, placesOf, reason } from '../compile/index.js';
import type { ArticulationMap, Likeness } from '../map/index.js';
import type { Line } from '../midi/index.js';
import { areVersions, isKept, likenessBetween } from './matching.js';

/** A line as one map decides it. */
export interface Decided {
  readonly map: ArticulationMap;
  readonly line: Line;
  readonly decisions: readonly Decision[];
}

/** What one map gives a note, and why. */
export interface Verdict {
  readonly articulation: string;
  /** The rule's index from 0, or 'marked'. */
  readonly rule: number | 'marked';
  /** The rule that would have decided, but for steadiness. */
  readonly insteadOf?: number;
  /** The mark that decided, where one did by itself. */
  readonly mark?: string;
  /** In one sentence, with the rule's line and what was measured. Safe to show. */
  readonly reason: string;
}

/** A note that gets another articulation from one map than from the other. */
export interface ChangedNote {
  /** Its place among the notes that were compared, from 1 in the order of the file. */
  readonly number: number;
  readonly tick: number;
  /** null where the music has no bars. */
  readonly bar: number | null;
  readonly beat: number | null;
  readonly pitch: number;
  readonly from: Verdict;
  readonly to: Verdict;
  /** How near the one comes to the other; only where the maps are of two libraries. */
  readonly likeness?: Likeness;
}

/**
 * The notes that change their articulation from one map to the other, in the order of the file: another name of the same
 * library, or what does not mean the same in another. Both maps decide
 * the same notes, but may group them into other onsets, so that notes are told by their note-on.
 */
export function changedNotes(a: Decided, b: Decided): readonly ChangedNote[] {
  const before = new Map(a.decisions.map((decision) => [decision.note.onIndex, decision]));
  const after = [...b.decisions].sort((one, other) => one.note.onIndex - other.note.onIndex);
  const places = placesOf(b.line);
  const isOne = areVersions(a.map, b.map);
  const likenessTo = likenessBetween(a.map, b.map);
  return after.flatMap((to, index): ChangedNote[] => {
    const from = before.get(to.note.onIndex);
    const likeness = from && likenessTo(from.articulation, to.articulation);
    if (!from || !likeness || isKept(likeness)) return [];
    const { tick, pitch } = to.note;
    const position = places[to.note.onset];
    return [
      {
        number: index + 1,
        tick,
        bar: position?.bar ?? null,
        beat: position?.beat ?? null,
        pitch,
        from: verdict(a, from),
        to: verdict(b, to),
        ...(isOne ? {} : { likeness }),
      },
    ];
  });
}

/** What a map gives a note, and why. */
export function verdict({ map, line }: Decided, decision: Decision): Verdict {
  const { articulation, rule, insteadOf, mark } = decision;
  return {
    articulation,
    rule,
    ...(insteadOf === undefined ? {} : { insteadOf }),
    ...(mark === undefined ? {} : { mark }),
    reason: reason(map, decision, line),
  };
}
