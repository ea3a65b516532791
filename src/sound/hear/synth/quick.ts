import type { BasicPreset } from 'spessasynth_core';
import type { Library } from './library.js';

/**
 * The longest attack of an envelope. Slow attacks of a bank would make every note late by as much as the bank's maker
 * liked: bowed strings of a free bank reach −15 dB 30 to 115 ms behind their onset, in which a library that speaks late
 * could not be told from one that does not. Unit: ms.
 */
export const longestAttack = 12;

/** Makes the sounds of a preset begin at once: delays and attacks of their envelopes are cut to `longestAttack`. */
export function quicken({ GeneratorTypes }: Library, preset: BasicPreset): void {
  const longest = Math.round(1200 * Math.log2(longestAttack / 1000));
  const { attackVolEnv, delayVolEnv } = GeneratorTypes;
  // a preset's value is added to the instrument's
  for (const zone of [preset.globalZone, ...preset.zones])
    for (const generator of [attackVolEnv, delayVolEnv])
      if (zone.getGenerator(generator, 0) > 0) zone.setGenerator(generator, 0);
  const instruments = new Set(preset.zones.flatMap(({ instrument }) => instrument ?? []));
  for (const instrument of instruments)
    for (const zone of [instrument.globalZone, ...instrument.zones])
      for (const [generator, most] of [[attackVolEnv, longest] as const, [delayVolEnv, -12_000] as const])
        if (zone.getGenerator(generator, most) > most) zone.setGenerator(generator, most);
}
