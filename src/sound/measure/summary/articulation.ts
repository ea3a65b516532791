import { median, spread } from '../../signal/index.js';
import type { ProbedArticulation, ProbedLibrary } from '../library.js';
import type { MeasuredSlot } from '../note/slot.js';
import { isShaped } from '../plan/wanted.js';
import type { MeasuredArticulation, MeasuredStep } from '../result.js';
import { type OnsetAt, stepsOf } from './steps.js';

/** Joined notes that differ from others by less are not told apart. Unit: ms. */
const leastDifference = 10;
/** A note that ends so near to its key's release, or later, follows the key. Unit: ms. */
const nearRelease = 60;

/**
 * What a bounce tells of one articulation.
 *
 * @param isTimed whether the bounce had clicks, without which nothing is known of absolute time
 */
export function summaryOf(
  articulation: ProbedArticulation,
  all: readonly MeasuredSlot[],
  library: ProbedLibrary,
  isTimed: boolean,
): MeasuredArticulation {
  const slots = all.filter(
    ({ slot, state }) => slot.articulation === articulation.name && state !== 'missing',
  );
  const notes = slots.filter(({ slot }) => slot.kind === 'note');
  const heard = notes.flatMap(({ slot, onset }) => (onset ? [{ onset, slot }] : []));
  const counts = { used: heard.length, rejected: notes.length - heard.length };
  const common = { ...counts, ...lengthIn(notes), silentKeys: silentKeys(slots) };
  if (!isTimed || heard.length === 0)
    return { speaksAfterMs: null, uncertaintyMs: null, crossingsMs: null, spreadMs: null, ...common };
  const onsets = heard.map(({ onset, slot }): OnsetAt => {
    return { ms: onset.at, pitch: slot.notes[0]?.pitch ?? 0, velocity: slot.notes[0]?.velocity ?? 0 };
  });
  const times = onsets.map(({ ms }) => ms);
  const crossingsMs = {
    at15: median(heard.map(({ onset }) => onset.early)),
    at6: median(heard.map(({ onset }) => onset.late)),
  };
  const steps = withJoined(
    stepsOf(onsets, isShaped(articulation, library) ? ['pitch'] : ['velocity', 'pitch']),
    { when: null, isMs: median(times), spreadMs: spread(times), used: times.length },
    slots,
  );
  return {
    speaksAfterMs: median(times),
    uncertaintyMs: (crossingsMs.at6 - crossingsMs.at15) / 2,
    crossingsMs,
    spreadMs: spread(times),
    ...common,
    ...(steps ? { steps } : {}),
  };
}

/** Joined notes come first, where they speak at another time than notes that stand alone. */
function withJoined(
  steps: readonly MeasuredStep[] | undefined,
  alone: MeasuredStep,
  slots: readonly MeasuredSlot[],
): readonly MeasuredStep[] | undefined {
  const times = slots.flatMap(({ slot, onset }) => (slot.kind === 'joined' && onset ? [onset.at] : []));
  const isMs = median(times);
  const spreadMs = spread(times);
  if (times.length < 2 || !(Math.abs(isMs - alone.isMs) > Math.max(leastDifference, spreadMs))) return steps;
  return [{ when: { 'overlaps-previous': true }, isMs, spreadMs, used: times.length }, ...(steps ?? [alone])];
}

function lengthIn(notes: readonly MeasuredSlot[]): Pick<MeasuredArticulation, 'length'> {
  const lengths = notes.flatMap(({ slot, length }) =>
    length ? [{ ...length, held: (slot.notes[0]?.held ?? 0) * 1000 }] : [],
  );
  if (lengths.length === 0) return {};
  const more = (few: number) => 2 * few > lengths.length;
  return {
    length: {
      ms: median(lengths.map(({ ms }) => ms)),
      followsKey: more(lengths.filter(({ ms, held }) => ms > held - nearRelease).length),
      rings: more(lengths.filter(({ rings }) => rings).length),
    },
  };
}

/** Keys of which no note sounded. */
function silentKeys(slots: readonly MeasuredSlot[]): readonly number[] {
  const single = slots.filter(({ slot }) => slot.notes.length === 1);
  const sounding = new Set(
    single.flatMap(({ slot, state }) => (state === 'heard' ? (slot.notes[0]?.pitch ?? []) : [])),
  );
  const silent = single.flatMap(({ slot, state }) =>
    state === 'silent' ? (slot.notes[0]?.pitch ?? []) : [],
  );
  return [...new Set(silent)].filter((key) => !sounding.has(key)).sort((a, b) => a - b);
}
