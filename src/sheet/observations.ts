import type { BarRange, Clock } from '../midi/index.js';
import {
  type BarBalance,
  coveredBars,
  formatCovered,
  type Harmony,
  instrumentOf,
  observationText,
  outsideInstrumentText,
  registerOf,
  type SoundingNote,
  voicingOf,
  voicingRemarks,
} from '../music/index.js';
import type { Remark, SheetPart } from './types.js';

/** The music that is looked at: pitched notes only, with the indices of their parts. */
export interface Observed {
  readonly parts: readonly SheetPart[];
  readonly notes: readonly SoundingNote[];
  readonly harmony: readonly Harmony[];
  readonly balance: readonly BarBalance[];
  readonly clock: Clock;
}

/** What is to be observed of voicing, register and balance, each with its reason, in order of bars. */
export function observationsOn(music: Observed): readonly Remark[] {
  const all = [...ofVoicing(music), ...ofRegister(music), ...ofBalance(music)];
  return all.sort((a, b) => (a.bar ?? 0) - (b.bar ?? 0));
}

function ofVoicing({ parts, notes, harmony, clock }: Observed): readonly Remark[] {
  const names = parts.map(({ name }) => name);
  return voicingRemarks(voicingOf(notes, harmony, clock), names).map(
    ({ from, to, says }): Remark => ({ kind: 'observation', text: says, ...inBars(from, to) }),
  );
}

function ofRegister({ parts, notes, clock }: Observed): readonly Remark[] {
  const at = (bars: BarRange | null | undefined) => {
    const start = bars ? clock.barStart(bars.from) : null;
    return { ...(start === null ? {} : { tick: start }), ...inBars(bars?.from, bars?.to) };
  };
  // The part's name tells the instrument, or else what its map says it is.
  const named = parts.map(({ name, instrument, range }) => ({
    name: instrumentOf(name) === undefined ? instrument : name,
    range,
  }));
  return registerOf(notes, named, clock).flatMap((register): readonly Remark[] => {
    const about = { kind: 'observation', part: register.part } as const;
    const outside = outsideInstrumentText(register);
    return [
      ...(outside === undefined
        ? []
        : [{ ...about, text: outside, ...at(register.outsideInstrument?.bars[0]) }]),
      ...register.observations.map((observation) => {
        const { bars, under } = observation;
        const below = under === undefined ? undefined : parts[under]?.name;
        const text = observationText({ ...observation, bars: null }, register, below);
        return { ...about, text, ...at(bars) };
      }),
    ];
  });
}

function ofBalance({ balance }: Observed): readonly Remark[] {
  return coveredBars(balance).map(
    ({ from, to, covered }): Remark => ({
      kind: 'observation',
      text: formatCovered(covered),
      ...inBars(from, to),
    }),
  );
}

function inBars(
  from: number | null | undefined,
  to: number | null | undefined,
): Pick<Remark, 'bar' | 'toBar'> {
  if (from === null || from === undefined) return {};
  return to === null || to === undefined || to === from ? { bar: from } : { bar: from, toBar: to };
}
