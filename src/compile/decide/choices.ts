import { type ArticulationMap, asksPrevious, type Rule } from '../../map/index.js';
import type { MeasuredNote } from '../../midi/index.js';
import type { MeasuredLine } from '../analyse/index.js';
import { boundsOf } from './bounds.js';
import { type Numbered, numbered } from './decided.js';
import type { Decision, Kept } from './decision.js';
import { bindLadder, type Ladder } from './ladder.js';
import { Likenesses } from './likenesses.js';
import { bindMeanings, type MarkedChoice, type MeantByMark, namedByMark } from './marked.js';
import { boundOf, NearBounds } from './nearby.js';
import { NoteInHand } from './note-in-hand.js';

/**
 * What notes of a line may be given, one note after another: first what the plain ladder gives, then, where the note lies
 * near bounds, what it may be given besides, the cheapest of each articulation. A note that is marked has no other choice.
 *
 * All is in columns that serve every note. Why a note was given something is found by asking for its choices again.
 */
export class Choices {
  /** How many the note has that was asked for last; none where no rule fits it. */
  length = 0;
  /** Whether any of this depends on what the onset before was given. */
  readonly asksPrevious: boolean;
  /** The articulations by their numbers. */
  readonly numbered: Numbered;
  readonly #map: ArticulationMap;
  readonly #ladder: Ladder;
  readonly #meant: MeantByMark;
  readonly #bounds: NearBounds;
  readonly #note: NoteInHand;
  readonly #hasMarks: boolean;
  readonly #likenesses = new Likenesses();
  readonly #articulations: number[] = [];
  readonly #rules: number[] = [];
  readonly #likeness: number[] = [];
  /** Where a mark decided by itself. */
  #marked: MarkedChoice | undefined;

  constructor(line: MeasuredLine, map: ArticulationMap) {
    this.asksPrevious = map.rules.some(({ when }) => when !== undefined && asksPrevious(when));
    this.numbered = numbered(map);
    this.#map = map;
    this.#ladder = bindLadder(map, line);
    this.#meant = bindMeanings(map);
    this.#bounds = new NearBounds(line.measures, boundsOf(map, line.clock.ticksPerWhole), map.steadiness);
    this.#note = new NoteInHand(line.measures);
    this.#hasMarks = line.measures.marks.length > 0;
  }

  /** Finds those of a note, by its index, behind what the onset before it was given. */
  find(index: number, previous: string | undefined): void {
    this.length = 0;
    const note = this.#note.at(index);
    const isMarked = this.#hasMarks && note.marks.size > 0;
    this.#marked = isMarked ? namedByMark(note, this.#map) : undefined;
    const rule = this.#marked ? undefined : this.#first(note, isMarked, previous);
    if (isMarked && !this.#marked && !rule?.marked) this.#marked = this.#meant(note, this.#ladder, previous);
    if (this.#marked) this.#put(this.numbered.numberOf(this.#marked.articulation), -1, 0);
    else if (rule) this.#put(this.#ofRule(rule), rule.index, 0);
    if (rule && !this.#marked && !rule.marked) this.#findNearby(note, isMarked, previous);
  }

  /** The number of an articulation that it may be given. */
  articulation(choice: number): number {
    return this.#articulations[choice] ?? 0;
  }

  /** What that costs: 0 for what the plain ladder gives. Unit: nats. */
  cost(choice: number): number {
    return this.#likenesses.cost(this.#likeness[choice] ?? 0);
  }

  /** The choice of an articulation; −1 where it is not among them. */
  of(articulation: number): number {
    for (let choice = 0; choice < this.length; choice++)
      if (this.#articulations[choice] === articulation) return choice;
    return -1;
  }

  /** What a choice comes to for the note. */
  decision(
    choice: number,
    note: MeasuredNote,
    previous: string | undefined,
    kept: Omit<Kept, 'near'>,
  ): Decision {
    const articulation = this.numbered.names[this.articulation(choice)] ?? '';
    const behind = previous === undefined ? {} : { previous };
    if (this.#marked) return { note, articulation, rule: 'marked', mark: this.#marked.mark, ...behind };
    const rule = this.#rules[choice] ?? 0;
    if (choice === 0) return { note, articulation, rule, ...behind };
    const near = this.#likenesses.stepsOf(this.#likeness[choice] ?? 0).map(boundOf);
    return { note, articulation, rule, insteadOf: this.#rules[0] ?? 0, kept: { near, ...kept }, ...behind };
  }

  /** What the ladder gives to all that the note might as well have been. Rules that ask for marks are not among it. */
  #findNearby(note: NoteInHand, isMarked: boolean, previous: string | undefined): void {
    const likenesses = this.#likenesses;
    this.#bounds.find(note, likenesses);
    const plain = this.articulation(0);
    for (let likeness = 1; likeness < likenesses.length; likeness++) {
      likenesses.take(likeness, note);
      const rule = this.#first(note, isMarked, previous);
      if (!rule || rule.marked) continue;
      const articulation = this.#ofRule(rule);
      // What the plain ladder gives costs nothing.
      if (articulation === plain) continue;
      const known = this.of(articulation);
      if (known < 0) this.#put(articulation, rule.index, likeness);
      else if (likenesses.cost(likeness) < this.cost(known)) {
        this.#rules[known] = rule.index;
        this.#likeness[known] = likeness;
      }
    }
    note.asPlayed();
  }

  #first(note: NoteInHand, isMarked: boolean, previous: string | undefined): Rule | undefined {
    return isMarked ? this.#ladder.first(note, previous) : this.#ladder.firstUnmarked(note, previous);
  }

  #put(articulation: number, rule: number, likeness: number): void {
    this.#articulations[this.length] = articulation;
    this.#rules[this.length] = rule;
    this.#likeness[this.length] = likeness;
    this.length += 1;
  }

  #ofRule({ index }: Rule): number {
    return this.numbered.ofRule[index] ?? 0;
  }
}
