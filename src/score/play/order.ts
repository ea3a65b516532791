import type { Findings } from '../diagnostic.js';
import type { Jump, ScoreMeasure } from '../model.js';
import { type EndingGroup, endingGroups } from './endings.js';

/** A bar as it is played: which one, in which pass, and how far, where a Fine or a jump stands inside it. */
export interface Step {
  readonly measure: number;
  readonly pass: number;
  readonly until: number | null;
}

/** A repeated section that is being played. */
interface Section {
  readonly start: number;
  pass: number;
}

/** More bars than this are refused: repeats of repeats can play without end. */
const mostSteps = 100_000;

/** Where the playing stands. */
interface Player {
  readonly measures: readonly ScoreMeasure[];
  readonly groups: readonly (EndingGroup | null)[];
  readonly found: Findings;
  readonly steps: Step[];
  /** Bars whose jump back was made. */
  readonly taken: Set<number>;
  sections: readonly Section[];
  jumped: boolean;
}

/**
 * The bars in the order in which they are played: repeats, endings, da capo and dal segno, coda and Fine. After a jump
 * repeats are not made again, unless they say so, and the last ending is taken; a Fine and a To Coda count only then
 * (common practice; MusicXML 4.0, `repeat`, `sound`).
 */
export function playOrder(measures: readonly ScoreMeasure[], found: Findings): readonly Step[] {
  const player: Player = {
    measures,
    groups: endingGroups(measures),
    found,
    steps: [],
    taken: new Set(),
    sections: [{ start: 0, pass: 1 }],
    jumped: false,
  };
  for (let index: number | undefined = 0; index !== undefined; ) {
    const measure: ScoreMeasure | undefined = measures[index];
    if (!measure) break;
    if (player.steps.length >= mostSteps) {
      const message = `with all repeats the score has more than ${mostSteps} bars`;
      found.error('score-jump', undefined, message, 'see the times of its repeats');
      break;
    }
    index = playBar(measure, index, player);
  }
  return player.steps;
}

/** Plays one bar, or leaves it out. @returns the bar that follows; undefined where the music ends */
function playBar(measure: ScoreMeasure, index: number, player: Player): number | undefined {
  enter(measure, index, player);
  const { groups, steps, taken, jumped } = player;
  const group = groups[index] ?? null;
  const section = topOf(player);
  if (group && isSkipped(measure, group, section.pass, jumped)) return index + 1;
  const pass = jumped && group ? group.last : section.pass;
  if (repeats(measure, group, section.pass, jumped)) {
    steps.push({ measure: index, pass, until: null });
    section.pass += 1;
    return section.start;
  }
  if (measure.repeatTo && !(group && group.last > section.pass)) finish(index + 1, player);
  const jump = jumpFrom(measure, { index, pass, jumped, taken });
  steps.push({ measure: index, pass, until: jump ? cutOf(jump, measure) : null });
  return jump ? follow(jump, index, player) : index + 1;
}

/** Sections end behind their endings, and begin at a repeat sign. */
function enter(measure: ScoreMeasure, index: number, player: Player): void {
  const { groups, jumped } = player;
  const before = groups[index - 1];
  const isPastEndings =
    !groups[index] && before?.repeats === true && topOf(player).pass > 1 && topOf(player).start < index;
  if (isPastEndings && !jumped) finish(index, player);
  if (measure.repeatFrom && topOf(player).start !== index)
    player.sections = [...player.sections, { start: index, pass: 1 }];
}

function topOf({ sections }: Player): Section {
  return sections.at(-1) ?? { start: 0, pass: 1 };
}

function finish(after: number, player: Player): void {
  const { sections } = player;
  player.sections = sections.length > 1 ? sections.slice(0, -1) : [{ start: after, pass: 1 }];
}

function follow(jump: Leading, index: number, player: Player): number | undefined {
  if (jump.kind === 'fine') return undefined;
  const target = targetOf(jump, player.measures, index, player.found);
  if (target === undefined) return index + 1;
  if (jump.kind !== 'tocoda') player.taken.add(index);
  player.jumped = true;
  player.sections = [{ start: target, pass: 1 }];
  return target;
}

/** Endings whose passes do not hold now. One that only a repeat could lead to is played where there is none. */
function isSkipped({ ending }: ScoreMeasure, group: EndingGroup, pass: number, jumped: boolean): boolean {
  const passes = ending ?? [];
  if (jumped) return !passes.includes(group.last);
  if (!group.repeats || passes.includes(pass)) return false;
  return Math.max(...passes) < pass || group.passes.includes(pass);
}

function repeats(
  { repeatTo }: ScoreMeasure,
  group: EndingGroup | null,
  pass: number,
  jumped: boolean,
): boolean {
  if (!repeatTo || (jumped && !repeatTo.afterJump)) return false;
  if (!group) return pass < (repeatTo.times ?? 2);
  // an ending alone is left out the second time
  return pass < Math.max(group.last, repeatTo.times ?? 0, group.endings === 1 ? 2 : 0);
}

interface Now {
  readonly index: number;
  readonly pass: number;
  readonly jumped: boolean;
  readonly taken: ReadonlySet<number>;
}

/** The jump that is made at a bar's end, if one is. */
function jumpFrom({ jumps }: ScoreMeasure, { index, pass, jumped, taken }: Now): Leading | undefined {
  return jumps.filter(isLeading).find((jump) => {
    if (jump.passes && !jump.passes.includes(pass)) return false;
    return jump.kind === 'fine' || jump.kind === 'tocoda' ? jumped : !taken.has(index);
  });
}

type Leading = Exclude<Jump, { readonly kind: 'segno' | 'coda' }>;

function isLeading(jump: Jump): jump is Leading {
  return jump.kind !== 'segno' && jump.kind !== 'coda';
}

function cutOf({ offset }: Leading, { length }: ScoreMeasure): number | null {
  return offset !== null && offset > 0 && offset < length ? offset : null;
}

function targetOf(
  jump: Leading,
  measures: readonly ScoreMeasure[],
  index: number,
  found: Findings,
): number | undefined {
  if (!('name' in jump)) return jump.kind === 'dacapo' ? 0 : undefined;
  const sign = jump.kind === 'dalsegno' ? 'segno' : 'coda';
  const target = signAt(measures, sign, jump.name) ?? signAt(measures, sign, '');
  if (target !== undefined && target !== index) return target;
  const bar = measures[index]?.number ?? '';
  found.warning(
    'score-jump',
    undefined,
    `in bar ${bar} a jump leads to a ${sign} that is not there`,
    `the music goes on; put a ${sign} where it leads`,
  );
  return undefined;
}

function signAt(measures: readonly ScoreMeasure[], kind: 'segno' | 'coda', name: string): number | undefined {
  const fits = (jump: Jump) => jump.kind === kind && (name === '' || jump.name === name);
  const all = measures.flatMap(({ jumps }, index) => (jumps.some(fits) ? [index] : []));
  // of two coda signs the first says where to leave, the second where to go on
  return kind === 'coda' ? all.at(-1) : all[0];
}
