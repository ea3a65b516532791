import type { BasicPreset, BasicSample, VoiceParameters } from 'spessasynth_core';
import { mostSamples } from '../bank/index.js';
import type { HearProblem } from '../problem.js';
import type { Library } from './library.js';
import type { Struck } from './synth.js';

/** More recordings at once than any instrument layers for a note. */
const mostVoices = 64;

/** All that is unfolded together, in samples of 4 bytes: 512 MB. */
const mostUnfolded = 2 ** 27;

/** A loop is passed through so many times in one frame at most: the library goes through it one by one. */
const mostTurns = 8;

/** Sample rates of SoundFont 2.04 (7.10: 400 to 50,000 Hz; from memory), and those of later recordings. Unit: Hz. */
const leastRate = 400;
const mostRate = 192_000;

/**
 * Looks at what a bank gives for each note that will be asked of it, before the first is played: whether its recordings
 * are there, unfold to no more than the limit, and are not asked to run so fast that the library would never end.
 */
export function playable(
  library: Library,
  sampleRate: number,
): (preset: BasicPreset, struck: Struck) => HearProblem | undefined {
  const samples = new Map<BasicSample, string | undefined>();
  const seen = new Map<BasicPreset, Set<number>>();
  let unfolded = 0;

  function checkSample(sample: BasicSample): string | undefined {
    if (samples.has(sample)) return samples.get(sample);
    const problem = checkNewSample(sample);
    samples.set(sample, problem);
    return problem;
  }

  function checkNewSample(sample: BasicSample): string | undefined {
    if (!(sample.sampleRate >= leastRate && sample.sampleRate <= mostRate))
      return `is recorded at ${sample.sampleRate} Hz`;
    const raw = sample.getRawData(true);
    const length = sample.isCompressed ? mostSamples(raw) : raw.length / 2;
    if (length === undefined) return 'is compressed in a way that is not understood';
    if (sample.loopEnd > Math.max(length, mostUnfolded)) return 'loops behind its end';
    unfolded += length;
    if (unfolded > mostUnfolded) return 'makes the sounds of the music larger than 512 MB';
    const data = sample.getAudioData();
    return data.length > 1 ? undefined : 'is empty';
  }

  return (preset, { key, velocity }) => {
    const notes = seen.get(preset) ?? new Set();
    seen.set(preset, notes);
    const note = key * 128 + velocity;
    if (notes.has(note)) return undefined;
    notes.add(note);
    const voices = preset.getVoiceParameters(key, velocity);
    const about = `preset "${preset.name}" of the bank, key ${key}, velocity ${velocity}`;
    if (voices.length > mostVoices)
      return { code: 'bank-sound', message: `${about}: ${voices.length} recordings at once are too many` };
    for (const voice of voices) {
      if (!voice.sample) return { code: 'bank-sound', message: `${about}: a recording is missing` };
      const wrong = checkSample(voice.sample) ?? tooFast(library, voice, key, sampleRate);
      if (wrong)
        return { code: 'bank-sound', message: `${about}: the recording "${voice.sample.name}" ${wrong}` };
    }
    return undefined;
  };
}

/** How far a voice's pitch can be driven, by all that drives it, against how long its loop is. */
function tooFast(
  { GeneratorTypes, ModulatorControllerSources }: Library,
  { generators, modulators, sample }: VoiceParameters,
  key: number,
  sampleRate: number,
): string | undefined {
  const value = (generator: number) => generators[generator] ?? 0;
  const { fineTune, coarseTune, scaleTuning, overridingRootKey, keyNum } = GeneratorTypes;
  const { vibLfoToPitch, modLfoToPitch, modEnvToPitch } = GeneratorTypes;
  const root = value(overridingRootKey) > -1 ? value(overridingRootKey) : sample.originalKey;
  const played = value(keyNum) > -1 ? value(keyNum) : key;
  const inCents: ReadonlyMap<number, number> = new Map<number, number>([
    ...[fineTune, vibLfoToPitch, modLfoToPitch, modEnvToPitch].map((one) => [one, 1] as const),
    [coarseTune, 100],
    [scaleTuning, Math.abs(played - root)],
  ]);
  let cents = (played - root) * value(scaleTuning) + value(fineTune) + 100 * value(coarseTune);
  for (const moving of [vibLfoToPitch, modLfoToPitch, modEnvToPitch]) cents += Math.abs(value(moving));
  for (const { destination, transformAmount, primarySource } of modulators)
    if (primarySource.isCC || primarySource.index !== ModulatorControllerSources.pitchWheel)
      cents += Math.abs(transformAmount) * (inCents.get(destination) ?? 0);
  const step = (sample.sampleRate / sampleRate) * 2 ** ((cents + sample.pitchCorrection) / 1200);
  const loop = Math.max(1, Math.abs(sample.loopEnd - sample.loopStart));
  const isLooping = value(GeneratorTypes.sampleModes) % 2 === 1;
  if (step > mostTurns * (isLooping ? loop : sampleRate)) return 'is asked to run through its loop too fast';
  return undefined;
}
