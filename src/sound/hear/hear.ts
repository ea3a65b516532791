import { failed, found, type Result } from './problem.js';
import { longestTail, type RenderProgress, render } from './render.js';
import { type Schedule, scheduleOf } from './schedule/index.js';
import { memorySpool, type Spool } from './spool.js';
import { readLibrary } from './synth/library.js';
import { loadBank, sentenceOf } from './synth/load.js';
import { type ReadySynth, readySynth, type Substitute } from './synth/spessa.js';
import type { Struck } from './synth/synth.js';
import type { HearOptions, HearPart, PlainArticulation } from './types.js';
import { fitsWav, type SampleFormat, type WavSink } from './wav.js';

/** No sample is louder than this. Unit: dB of full scale. */
export const ceiling = -1;

/** Where the sound goes, and what is told on the way. */
export interface HearOutput {
  readonly format: SampleFormat;
  readonly sink: WavSink;
  /** Where it is kept until its peak is known; memory where it is absent. */
  readonly spool?: Spool;
  readonly onProgress?: (progress: RenderProgress) => void;
}

/** What was heard. */
export interface Heard {
  readonly frames: number;
  readonly notes: number;
  /** The loudest sample that was written. Unit: dB of full scale; −Infinity where all is silent. */
  readonly peak: number;
  /** By how much all was turned down so that it stays below the ceiling: 0 or less. Unit: dB. */
  readonly gain: number;
  readonly plain: readonly PlainArticulation[];
  readonly substitutes: readonly Substitute[];
}

/**
 * Renders parts with a bank of sounds, and writes the result. Between parts and notes all levels are kept: where the
 * loudest sample would be above −1 dBFS, the whole is turned down by one gain, which is known behind the rendering; so it
 * is rendered to a spool first, and written from there. Nothing is made louder, and there is no limiter. The same input
 * gives the same samples.
 *
 * @param bank the bytes of an sf2, sf3 or dls file
 * @returns what was heard, or the reason why nothing is; then nothing was written to the sink. What sink or spool throw is
 * passed on
 */
export async function hear(
  parts: readonly HearPart[],
  bank: Uint8Array,
  options: HearOptions,
  { format, sink, spool = memorySpool(), onProgress }: HearOutput,
): Promise<Result<Heard>> {
  const schedule = scheduleOf(parts, options);
  if (schedule.notes === 0 && schedule.clicks.length === 0)
    return failed('nothing-to-hear', 'no note of the parts lies where something is to be heard');
  // Before hours are spent on it: a file of forty bytes can hold a note for weeks.
  if (!fitsWav(schedule.frames + longestTail * options.sampleRate, format)) {
    const hours = Math.ceil(schedule.frames / options.sampleRate / 3600);
    return failed('sound-long', `it would be ${hours} hours of sound, more than a WAV file holds`, {
      hint: 'hear some bars of it: --at 1..200',
    });
  }
  const ready = await prepare(schedule, bank, options.sampleRate);
  if (!ready.ok) return ready;
  const rendered = await renderTo(spool, schedule, ready.value, options.sampleRate, onProgress);
  if (!rendered.ok) return rendered;
  const { frames, loudest } = rendered.value;
  const gain = Math.min(1, 10 ** (ceiling / 20) / loudest);
  await sink.begin({ sampleRate: options.sampleRate, format, frames });
  for await (const block of spool.read()) {
    scale(block.left, gain);
    scale(block.right, gain);
    await sink.write(block);
  }
  await sink.end();
  return found({
    frames,
    notes: schedule.notes,
    peak: decibel(loudest * gain),
    gain: decibel(gain),
    plain: schedule.plain,
    substitutes: ready.value.substitutes,
  });
}

async function prepare(
  schedule: Schedule,
  bytes: Uint8Array,
  sampleRate: number,
): Promise<Result<ReadySynth>> {
  const library = await readLibrary();
  if (!library.ok) return library;
  const bank = loadBank(library.value, bytes);
  if (!bank.ok) return bank;
  try {
    return await readySynth(library.value, bank.value, schedule.sounds, struckIn(schedule), sampleRate);
  } catch (error) {
    return failed('bank-sound', `the sounds of the bank cannot be read: ${sentenceOf(error)}`);
  }
}

function* struckIn({ messages, sounds }: Schedule): Generator<Struck> {
  for (const message of messages) {
    const sound = message.kind === 'on' ? sounds[message.sound] : undefined;
    if (sound && message.kind === 'on') yield { sound, key: message.key, velocity: message.velocity };
  }
}

async function renderTo(
  spool: Spool,
  schedule: Schedule,
  { synth }: ReadySynth,
  sampleRate: number,
  onProgress?: (progress: RenderProgress) => void,
): Promise<Result<{ readonly frames: number; readonly loudest: number }>> {
  let frames = 0;
  let loudest = 0;
  const blocks = render(schedule, synth, sampleRate, onProgress);
  for (;;) {
    let next: ReturnType<typeof blocks.next>;
    try {
      next = blocks.next();
    } catch (error) {
      return failed('sound-failed', `the synthesiser gave up at frame ${frames}: ${sentenceOf(error)}`);
    }
    if (next.done) return found({ frames, loudest });
    const peak = Math.max(peakOf(next.value.left), peakOf(next.value.right));
    if (!Number.isFinite(peak))
      return failed(
        'sound-failed',
        `what the bank gives at ${(frames / sampleRate).toFixed(1)} s is no sound`,
      );
    loudest = Math.max(loudest, peak);
    frames += next.value.left.length;
    await spool.write(next.value);
  }
}

/** NaN where a sample is none. */
function peakOf(samples: Float32Array): number {
  let peak = 0;
  for (const sample of samples) {
    const size = Math.abs(sample);
    // a comparison with NaN is false
    if (!(size <= peak)) peak = size;
    if (Number.isNaN(size)) return size;
  }
  return peak;
}

function scale(samples: Float32Array, gain: number): void {
  if (gain === 1) return;
  for (let index = 0; index < samples.length; index += 1) samples[index] = (samples[index] ?? 0) * gain;
}

function decibel(amplitude: number): number {
  return 20 * Math.log10(amplitude);
}
