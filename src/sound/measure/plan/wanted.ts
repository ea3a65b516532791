import type { ProbedArticulation, ProbedLibrary } from '../library.js';
import { joinedPairs, playableKeys, spreadPitches } from './pitches.js';
import type { ProbeOptions, ProbeSlot } from './types.js';

/** A slot before it has its time: its notes count from its first note-on. */
export type Wanted = Omit<ProbeSlot, 'at'>;

/** What is asked for depends on how much time there is. Lengths in seconds, in halves so that ticks are whole. */
interface Thoroughness {
  readonly pitches: number;
  readonly values: readonly number[];
  readonly pairs: number;
  readonly pans: readonly number[];
  readonly curve: readonly number[];
  readonly keys: boolean;
  readonly sustained: number;
  readonly short: number;
}

const thorough: Thoroughness = {
  pitches: 4,
  values: [20, 55, 90, 127],
  pairs: 4,
  // Between the ends stereo recordings follow no law that is known beforehand.
  pans: [1, 32, 64, 96, 127],
  // The last is one of the values above, so that both scales can be laid over each other.
  curve: [8, 32, 43, 65, 73, 81, 105, 116, 127],
  keys: true,
  sustained: 5.5,
  short: 3,
};
const quickly: Thoroughness = {
  pitches: 2,
  values: [40, 100],
  pairs: 2,
  pans: [1, 64, 127],
  curve: [],
  keys: false,
  sustained: 4.5,
  short: 2.5,
};

/** How long a key is held, and what a key that is only asked whether it sounds has. Unit: seconds. */
const held = { sustained: 3.25, short: 1, beforeJoined: 1.5, key: 0.5 } as const;
const keySlot = 1.5;
const roomSeconds = 2;
const middlePan = 64;

/** Everything that a probe plays, in the order of the map. */
export function asked(
  library: ProbedLibrary,
  { quick, room }: ProbeOptions,
): { readonly slots: readonly Wanted[]; readonly common: number } {
  const how = quick ? quickly : thorough;
  const common = how.values.at(-2 + (quick ? 1 : 0)) ?? 0;
  const keys = playableKeys(library);
  const more = room ? roomSeconds : 0;
  const slot = (kind: Wanted['kind'], of: ProbedArticulation, rest: Partial<Wanted>): Wanted => ({
    kind,
    articulation: of.name,
    length: (of.sustains ? how.sustained : how.short) + more,
    notes: [],
    pan: middlePan,
    ...(library.controller === undefined ? {} : { value: common }),
    ...rest,
  });
  const note = (of: ProbedArticulation, pitch: number, velocity = common) => [
    { at: 0, held: of.sustains ? held.sustained : held.short, pitch, velocity },
  ];
  const pitches = spreadPitches(keys, how.pitches);
  const [middle] = spreadPitches(keys, 1);
  const [first] = library.articulations;
  const moving = library.articulations.filter(({ key }) => key === undefined);
  const longest = moving.find(({ sustains }) => sustains) ?? moving[0] ?? first;
  const shaped = library.articulations.find((one) => isShaped(one, library));
  const alone = (of: ProbedArticulation | undefined) =>
    of && middle !== undefined ? [{ of, pitch: middle }] : [];

  const slots = [
    ...library.articulations.flatMap((of) =>
      // What has a key of its own sounds alike for all pitches.
      pitches
        .slice(0, of.key === undefined ? undefined : 1)
        .flatMap((pitch) =>
          how.values.map((value) =>
            isShaped(of, library)
              ? slot('note', of, { notes: note(of, pitch), value })
              : slot('note', of, { notes: note(of, pitch, value) }),
          ),
        ),
    ),
    ...library.articulations.flatMap((of) =>
      of.overlapMs === undefined
        ? []
        : joinedPairs(keys, how.pairs).map(([from, to]) => {
            const until = held.beforeJoined + (of.overlapMs ?? 0) / 1000;
            const rest = held.sustained - held.beforeJoined;
            return slot('joined', of, {
              notes: [
                { at: 0, held: Math.min(until, held.sustained), pitch: from, velocity: common },
                { at: held.beforeJoined, held: rest, pitch: to, velocity: common },
              ],
            });
          }),
    ),
    ...alone(shaped ?? longest).flatMap(({ of, pitch }) =>
      how.pans.map((pan) => slot('pan', of, { notes: note(of, pitch), pan })),
    ),
    ...alone(shaped).flatMap(({ of, pitch }) =>
      how.curve.map((value) => slot('curve', of, { notes: note(of, pitch), value })),
    ),
    ...(how.keys && longest && longest.key === undefined
      ? keys.map((pitch) =>
          slot('key', longest, {
            notes: [{ at: 0, held: held.key, pitch, velocity: common }],
            length: keySlot + more / 2,
          }),
        )
      : []),
  ];
  return { slots, common };
}

/** Whether the controller makes it louder, as far as the map tells; else its notes' velocity does. */
export function isShaped({ loudness }: ProbedArticulation, { controller }: ProbedLibrary): boolean {
  return loudness === 'controller' && controller !== undefined;
}
