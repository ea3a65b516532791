import { loudnessOfPower, meanPower, type PowerSum, type StereoPower } from '../../signal/index.js';

/** Where a sustained note is neither beginning nor released. From its note-on, in seconds. */
const steady = { from: 1, to: 3.2 } as const;
/** The length of momentary loudness (ITU-R BS.1770-4, EBU Tech 3341). Unit: seconds. */
const momentary = 0.4;

/** Sound less far above the noise has no level of its own. Unit: dB. */
const leastAbove = 6;

/**
 * How loud a note is by ITU-R BS.1770-4, with the noise's power taken off: the mean over 1.0 to 3.2 s where it is held
 * so long, else its greatest momentary loudness.
 *
 * @param noteOn from the first step. Unit: seconds
 * @param noise mean power of both channels where nothing sounds
 * @returns LUFS; undefined where the note and the noise are less than 6 dB above the noise
 */
export function levelOf(power: StereoPower, noteOn: number, held: number, noise: number): number | undefined {
  const found =
    held >= steady.to
      ? sum(meanPower(power, noteOn + steady.from, noteOn + steady.to))
      : greatest(power, noteOn, held);
  if (found <= 0 || found < noise * 10 ** (leastAbove / 10)) return undefined;
  return loudnessOfPower(found - noise);
}

function greatest(power: StereoPower, noteOn: number, held: number): number {
  let most = 0;
  for (let from = noteOn - 0.1; from < noteOn + held; from += 0.01)
    most = Math.max(most, sum(meanPower(power, from, from + momentary)));
  return most;
}

function sum(power: PowerSum | undefined): number {
  return power ? power.left + power.right : 0;
}
