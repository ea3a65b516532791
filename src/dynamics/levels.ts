import { curveThrough, type Target } from './curve.js';

/**
 * The marks of loudness, from the softest. A mark's level is its index here: ppp is 0, fff is 7. The scale is the same
 * for every library; what lies between two marks lies between their levels.
 */
export const dynamicMarks = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff'] as const;

export type DynamicMark = (typeof dynamicMarks)[number];

/** A map's `levels`: the controller values that sound like these marks, rising with them; at least one mark. */
export type LevelTable = ReadonlyMap<string, number>;

/** The levels of the softest and the loudest mark. */
export const softest = 0;
export const loudest = dynamicMarks.length - 1;

/** The step from one mark to the next in the identity table, in controller or velocity steps. */
export const identityStep = 15;

/**
 * The table that changes nothing: each mark 15 steps above the one before it, so that forte is 90, the value that
 * MusicXML takes forte for (`dynamics` of `sound`, from memory). A recorded controller is read by it.
 */
export const identityLevels: LevelTable = new Map(
  dynamicMarks.map((mark, level) => [mark, identityStep * (level + 1)]),
);

const highest = 127;

/** A mark's level; undefined for what is no mark of the scale. */
export function levelOfMark(mark: string): number | undefined {
  const level = (dynamicMarks as readonly string[]).indexOf(mark);
  return level < 0 ? undefined : level;
}

/** A level that lies beyond the marks, put back to the softest or loudest. */
export function withinMarks(level: number): number {
  return Math.max(softest, Math.min(loudest, level));
}

/**
 * What controller value (not rounded) has a level in a library. Its marks have their values; between them it runs
 * monotone (Fritsch & Carlson 1980, over levels); below its softest mark and above its loudest the value is held.
 *
 * @throws RangeError for a table without marks
 */
export function levelScale(table: LevelTable): (level: number) => number {
  return curveThrough(targetsOf(table)).valueAt;
}

/**
 * Carries recorded controller values from the library that they were played for to another, so that each mark sounds
 * alike: a value that is a mark in the one becomes that mark's value in the other. Between marks it runs monotone
 * (Fritsch & Carlson 1980, over values); 0 stays 0 and 127 stays 127, so that a fade-out still ends in silence. Where
 * both tables are the same, and where `to` is a part of the identity table, every value stays what it was.
 *
 * @param to the library's table
 * @param from the table by which the values were played
 * @returns takes a whole value, 0–127, to another
 */
export function rescaler(to: LevelTable, from: LevelTable = identityLevels): (value: number) => number {
  const exact = exactRescaler(to, from);
  return (value) => Math.round(exact(value));
}

/**
 * The same without rounding, for controllers of two bytes: 0 to below 128. What lies above 127 is as far above it after.
 */
export function exactRescaler(to: LevelTable, from: LevelTable = identityLevels): (value: number) => number {
  const source = targetsOf(from);
  const goal = targetsOf(to);
  const [fromScale, toScale] = [curveThrough(source).valueAt, curveThrough(goal).valueAt];
  const low = Math.max(source[0]?.at ?? 0, goal[0]?.at ?? 0);
  const high = Math.min(source.at(-1)?.at ?? 0, goal.at(-1)?.at ?? 0);
  const marks = [...new Set([...from.keys(), ...to.keys()])]
    .map(levelOfMark)
    .filter((level) => level !== undefined && level >= low && level <= high)
    .map((level) => ({ at: fromScale(level ?? 0), level: toScale(level ?? 0) }))
    .filter(({ at }) => at > 0 && at < highest)
    .sort((a, b) => a.at - b.at);
  const curve = curveThrough([{ at: 0, level: 0 }, ...marks, { at: highest, level: highest }]);
  return (value) => curve.valueAt(value) + Math.max(0, value - highest);
}

function targetsOf(table: LevelTable): readonly Target[] {
  return dynamicMarks.flatMap((mark, at) => {
    const level = table.get(mark);
    return level === undefined ? [] : [{ at, level }];
  });
}
