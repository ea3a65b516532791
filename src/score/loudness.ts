/**
 * Velocities of the marks of loudness: 15 steps from one to the next, so that forte is 90, as MusicXML takes it
 * (`sound`, attribute dynamics: "100 % is forte, velocity 90").
 */
const step = 15;
export const scale: readonly string[] = ['ppp', 'pp', 'p', 'mp', 'mf', 'f', 'ff', 'fff'];
const forte = 90;

/** What a dynamic does: the level from its note on, and the velocity it adds to that one onset. */
export interface Dynamic {
  /** Velocity from the next onset on; null where it changes nothing. */
  readonly after: number | null;
  /** Velocity of the onset that it stands at; null: that of `after`, or what was in force and `accent`. */
  readonly at: number | null;
  /** Steps of velocity over what is in force. */
  readonly accent: number;
}

const plainLevel = (name: string) => step * (scale.indexOf(name) + 1);
const level = (name: string): Dynamic => ({ after: plainLevel(name), at: null, accent: 0 });
const accented = (accent: number): Dynamic => ({ after: null, at: null, accent });
const fallsTo = (at: string, after: string): Dynamic => ({
  after: plainLevel(after),
  at: plainLevel(at),
  accent: 0,
});

/** The 27 elements of `dynamics` without other-dynamics (MusicXML 4.0). How much louder sf is: common practice, no source. */
const dynamics: ReadonlyMap<string, Dynamic> = new Map([
  ...scale.map((name): [string, Dynamic] => [name, level(name)]),
  ['pppp', { after: 10, at: null, accent: 0 }],
  ['ppppp', { after: 7, at: null, accent: 0 }],
  ['pppppp', { after: 5, at: null, accent: 0 }],
  ['ffff', { after: 124, at: null, accent: 0 }],
  ['fffff', { after: 126, at: null, accent: 0 }],
  ['ffffff', { after: 127, at: null, accent: 0 }],
  ['n', { after: 1, at: null, accent: 0 }],
  ['sf', accented(20)],
  ['sfz', accented(20)],
  ['fz', accented(20)],
  ['rf', accented(15)],
  ['rfz', accented(15)],
  ['sffz', accented(30)],
  ['fp', fallsTo('f', 'p')],
  ['pf', fallsTo('p', 'f')],
  ['sfp', fallsTo('f', 'p')],
  ['sfpp', fallsTo('f', 'pp')],
  ['sfzp', fallsTo('f', 'p')],
]);

export function isDynamicName(name: string): boolean {
  return dynamics.has(name);
}

export function dynamicOf(name: string): Dynamic {
  return dynamics.get(name) ?? { after: null, at: null, accent: 0 };
}

/** Velocity of a percentage of forte. */
export function velocityOfPercent(percent: number): number {
  return withinVelocities((percent * forte) / 100);
}

export function withinVelocities(velocity: number): number {
  return Math.max(1, Math.min(127, Math.round(velocity)));
}

/** The mark of the scale nearest to a velocity. */
export function nearestMark(velocity: number): string {
  const index = Math.round(velocity / step) - 1;
  return scale[Math.max(0, Math.min(scale.length - 1, index))] ?? 'mf';
}

/** What a hairpin without an end comes to: one mark further. */
export function oneMarkFrom(velocity: number, direction: 1 | -1): number {
  return Math.max(step, Math.min(step * scale.length, velocity + direction * step));
}

/** Before the first mark: mezzo forte (common practice, no source). */
export const firstVelocity = 75;

/** Steps that marks on a note add to its velocity (common practice, no source). */
export const accents: ReadonlyMap<string, number> = new Map([
  ['accent', 12],
  ['strong-accent', 20],
  ['soft-accent', 6],
  ['stress', 6],
  ['unstress', -6],
]);
