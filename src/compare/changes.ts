import { type CompiledPart, type Decision, placesOf, reason } from '../compile/index.js';
import type { Likeness } from '../map/index.js';
import { Numbers, onOf } from '../midi/index.js';
import { areVersions, isKept, likenessBetween } from './matching.js';

/** A line as one map decides it. */
export type Decided = Pick<CompiledPart, 'map' | 'line' | 'decided'>;

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

/** Notes that change; each is made when it is come to. */
export interface ChangedNotes extends Iterable<ChangedNote> {
  readonly length: number;
}

/**
 * The notes that change their articulation from one map to the other, in the order of the file: another name of the same
 * library, or what does not mean the same in another. Both maps decide
 * the same notes, but may group them into other onsets, so that notes are told by their note-on.
 */
export function changedNotes(a: Decided, b: Decided): ChangedNotes {
  const { ofA, ofB } = changedRows(a, b);
  let placeOf: ReturnType<typeof placesOf> | undefined;
  return {
    length: ofB.length,
    *[Symbol.iterator]() {
      const likenessTo = areVersions(a.map, b.map) ? undefined : likenessBetween(a.map, b.map);
      for (let change = 0; change < ofB.length; change++) {
        const row = ofB.at(change);
        const [from, to] = [a.decided.decision(ofA.at(change)), b.decided.decision(row)];
        placeOf ??= placesOf(b.line);
        const position = placeOf(to.note.onset);
        yield {
          number: row + 1,
          tick: to.note.tick,
          bar: position?.bar ?? null,
          beat: position?.beat ?? null,
          pitch: to.note.pitch,
          from: verdict(a, from),
          to: verdict(b, to),
          ...(likenessTo ? { likeness: likenessTo(from.articulation, to.articulation) } : {}),
        };
      }
    },
  };
}

/** The rows of the notes that change, by either map. Rows are in the order of the file. */
function changedRows(a: Decided, b: Decided): { readonly ofA: Numbers; readonly ofB: Numbers } {
  const isChange = changesBetween(a, b);
  const ofA = new Numbers();
  const ofB = new Numbers();
  let before = 0;
  for (let row = 0; row < b.decided.length; row++) {
    const on = onOf(b.decided, row);
    while (before < a.decided.length && onOf(a.decided, before) < on) before += 1;
    if (before === a.decided.length) break;
    if (onOf(a.decided, before) !== on || !isChange(before, row)) continue;
    ofA.push(before);
    ofB.push(row);
  }
  return { ofA, ofB };
}

/** Whether a row of one and a row of the other have articulations that are not the same. */
function changesBetween(a: Decided, b: Decided): (rowOfA: number, rowOfB: number) => boolean {
  const likenessTo = likenessBetween(a.map, b.map);
  const changesFrom = a.decided.names.map((from) =>
    b.decided.names.map((to) => !isKept(likenessTo(from, to))),
  );
  const [ofA, ofB] = [a.decided.articulation, b.decided.articulation];
  return (rowOfA, rowOfB) => changesFrom[ofA[rowOfA] ?? 0]?.[ofB[rowOfB] ?? 0] ?? true;
}

/** What a map gives a note, and why. */
export function verdict(of: Pick<Decided, 'map' | 'line'>, decision: Decision): Verdict {
  return new DecidedVerdict(of, decision);
}

/** Most verdicts are only counted with others of their kind: the reason is put into words when it is read. */
class DecidedVerdict implements Verdict {
  readonly articulation: string;
  readonly rule: number | 'marked';
  readonly insteadOf?: number;
  readonly mark?: string;
  readonly #of: Pick<Decided, 'map' | 'line'>;
  readonly #decision: Decision;

  constructor(of: Pick<Decided, 'map' | 'line'>, decision: Decision) {
    const { articulation, rule, insteadOf, mark } = decision;
    this.articulation = articulation;
    this.rule = rule;
    if (insteadOf !== undefined) this.insteadOf = insteadOf;
    if (mark !== undefined) this.mark = mark;
    this.#of = of;
    this.#decision = decision;
  }

  get reason(): string {
    return reason(this.#of.map, this.#decision, this.#of.line);
  }

  /** For JSON, which passes over what is no field. */
  toJSON(): Verdict {
    return { ...this, reason: this.reason };
  }
}
