import { setFlagsFromString } from 'node:v8';

/** As much as 8,000 notes of a recording are. Unit: bytes. */
const little = 64 * 1024;

/** A flag of V8 that says how much of a function is run before it is optimised. */
export interface Tier {
  readonly flag: string;
  /** V8's own value. */
  readonly usual: number;
  readonly patient: number;
}

// Of a function's code, in bytes.
const byBytes: readonly Tier[] = [{ flag: '--interrupt-budget', usual: 67_584, patient: 1_000_000 }];
// Of its calls.
const byCalls: readonly Tier[] = [
  { flag: '--invocation-count-for-maglev', usual: 400, patient: 4000 },
  { flag: '--invocation-count-for-turbofan', usual: 3000, patient: 40_000 },
];
/** By V8 of Node.js 20, 22 and 24. Others are left alone: V8 tells standard error of flags that it does not know. */
const known: Readonly<Record<string, readonly Tier[]>> = { 11.3: byBytes, 12.4: byCalls, 13.6: byCalls };

/** What there is to set in a version of V8, as `process.versions` has it. */
export function tiersOf(v8: string): readonly Tier[] {
  return known[/^\d+\.\d+/u.exec(v8)?.[0] ?? ''] ?? [];
}

/**
 * Lets V8 run functions for longer before it optimises them, until more was read than a short recording and its map: its
 * other threads would work as long as this one, on code that ends before it gains by that. Of 2,000 notes `compile` takes
 * 354 ms of CPU time in place of 534 (Node.js 20), 338 of 570 (22), 391 of 522 (24); `explain` and `prove` gain likewise.
 * Of 200,000 it would lose a fifth, and so it is undone for these: 2273 and 2357 ms, where differences of 5 % prove nothing.
 * For the program alone: a library leaves its process as it is.
 *
 * @returns is to be told of the size of each thing that is read; unit: bytes
 */
export function optimisingLate(): (size: number) => void {
  const tiers = tiersOf(process.versions.v8);
  for (const { flag, patient } of tiers) setFlagsFromString(`${flag}=${patient}`);
  let total = 0;
  return (size) => {
    const before = total;
    total += size;
    if (before > little || total <= little) return;
    for (const { flag, usual } of tiers) setFlagsFromString(`${flag}=${usual}`);
  };
}
