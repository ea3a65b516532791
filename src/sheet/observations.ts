import type { BarBalance } from '../inspect/balance.js';
import { sayCovered, stretches } from '../inspect/balance-text.js';
import { observationText } from '../inspect/register-text.js';
import { voicingRemarks } from '../inspect/voicing-text.js';
import type { Harmony, SoundingNote } from '../model/harmony.js';
import type { SheetPart } from '../model/sheet.js';
import { registerOf } from '../register/index.js';
import type { Clock } from '../time/clock.js';
import { voicingOf } from '../voicing/index.js';
import type { Remark } from './index.js';

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
  return registerOf(notes, parts, clock).flatMap((register) =>
    register.observations.map((observation): Remark => {
      const { bars, under } = observation;
      const below = under === undefined ? undefined : parts[under]?.name;
      const text = observationText({ ...observation, bars: null }, register, below);
      const start = bars === null ? null : clock.barStart(bars.from);
      const tick = start === null ? {} : { tick: start };
      return { kind: 'observation', text, part: register.part, ...tick, ...inBars(bars?.from, bars?.to) };
    }),
  );
}

function ofBalance({ balance }: Observed): readonly Remark[] {
  return stretches(balance).map(
    ({ from, to, covered }): Remark => ({
      kind: 'observation',
      text: sayCovered(covered),
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
