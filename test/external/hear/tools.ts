import { execFileSync, spawnSync } from 'node:child_process';
import { closeSync, openSync, readFileSync, writeFileSync, writeSync } from 'node:fs';
import { type MidiEvent, writeMidi } from 'midi-file';
import {
  type Heard,
  type HearOptions,
  type HearPart,
  hear,
  type SampleFormat,
  wavSink,
} from '../../../src/sound/hear/index.js';

/** A General MIDI set of 6 MB, Debian's timgm6mb-soundfont. */
export const bankFile = '/usr/share/sounds/sf2/TimGM6mb.sf2';
export const rate = 48_000;

/** Our sound in a file. */
export async function heardTo(
  file: string,
  parts: readonly HearPart[],
  options: Partial<HearOptions> = {},
  format: SampleFormat = '24',
  bank = bankFile,
): Promise<Heard> {
  const handle = openSync(file, 'w');
  const sink = wavSink((bytes) => {
    writeSync(handle, bytes);
  });
  const result = await hear(
    parts,
    new Uint8Array(readFileSync(bank)),
    { sampleRate: rate, ...options },
    { format, sink },
  );
  closeSync(handle);
  if (!result.ok) throw new Error(result.problem.message);
  return result.value;
}

/** The same parts as a Standard MIDI File of 1 ms ticks, as they stand, played by fluidsynth: no reverb, no chorus. */
export function fluidsynth(file: string, parts: readonly HearPart[]): void {
  const midi = `${file}.mid`;
  const tracks = parts.map(trackOf);
  const header = { format: 1 as const, numTracks: tracks.length, ticksPerBeat: 500 };
  writeFileSync(midi, Uint8Array.from(writeMidi({ header, tracks })));
  execFileSync(
    'fluidsynth',
    ['-ni', '-q', '-R', '0', '-C', '0', '-g', '0.3', '-r', `${rate}`, '-F', file, bankFile, midi],
    { stdio: ['ignore', 'ignore', 'pipe'] },
  );
}

function trackOf({ notes, controllers, program = 0 }: HearPart, channel: number): MidiEvent[] {
  const events: { ms: number; event: MidiEvent }[] = [
    { ms: 0, event: { deltaTime: 0, type: 'programChange', channel, programNumber: program } },
    ...controllers.map(({ ms, controller, value }) => ({
      ms,
      event: { deltaTime: 0, type: 'controller', channel, controllerType: controller, value } as const,
    })),
    ...notes.flatMap(({ onsetMs, endMs, pitch, velocity }) => [
      { ms: onsetMs, event: { deltaTime: 0, type: 'noteOn', channel, noteNumber: pitch, velocity } as const },
      {
        ms: endMs,
        event: { deltaTime: 0, type: 'noteOff', channel, noteNumber: pitch, velocity: 0 } as const,
      },
    ]),
  ];
  events.sort((a, b) => a.ms - b.ms);
  let before = 0;
  for (const { ms, event } of events) {
    event.deltaTime = Math.round(ms) - before;
    before = Math.round(ms);
  }
  return [...events.map(({ event }) => event), { deltaTime: 0, type: 'endOfTrack' }];
}

/** A file's samples as ffmpeg reads them: of one side, or both added. */
export function samplesOf(file: string, side: 'left' | 'right' | 'both' = 'both'): Float32Array {
  const pan = { left: 'mono|c0=c0', right: 'mono|c0=c1', both: 'mono|c0=c0+c1' }[side];
  const bytes = execFileSync(
    'ffmpeg',
    ['-v', 'error', '-i', file, '-af', `pan=${pan}`, '-f', 'f32le', '-ar', `${rate}`, '-'],
    { maxBuffer: 2 ** 30 },
  );
  return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
}

/** Energy is taken over so long, so that it does not matter where in its period a wave stands. Unit: ms. */
const window = 10;

/**
 * When a note is heard to begin: where its energy first comes within so many dB of its most in the stretch. Unit: ms.
 */
export function onsetAfter(samples: Float32Array, fromMs: number, toMs: number, below: number): number {
  const from = Math.round((fromMs * rate) / 1000);
  const length = (window * rate) / 1000;
  const energies: number[] = [];
  let energy = 0;
  for (let frame = from; frame < (toMs * rate) / 1000; frame += 1) {
    energy += (samples[frame] ?? 0) ** 2 - (frame - length < from ? 0 : (samples[frame - length] ?? 0) ** 2);
    energies.push(energy);
  }
  const most = energies.reduce((loudest, one) => Math.max(loudest, one), 0);
  const threshold = most * 10 ** (below / 10);
  return ((from + energies.findIndex((one) => one >= threshold)) * 1000) / rate;
}

/** Integrated loudness by EBU R 128, as ffmpeg measures it. Unit: LUFS. */
export function loudnessOf(file: string, fromS: number, seconds: number): number {
  const { stderr } = spawnSync(
    'ffmpeg',
    [
      '-hide_banner',
      '-nostats',
      '-ss',
      `${fromS}`,
      '-t',
      `${seconds}`,
      '-i',
      file,
      '-af',
      'ebur128',
      '-f',
      'null',
      '-',
    ],
    { encoding: 'utf8' },
  );
  const found = /Integrated loudness:\s+I:\s+(-?[\d.]+) LUFS/u.exec(stderr);
  if (!found) throw new Error(stderr);
  return Number(found[1]);
}

/** What ffprobe says that a file is. */
export function probe(file: string): Record<string, string> {
  const text = execFileSync(
    'ffprobe',
    ['-v', 'error', '-show_entries', 'stream=codec_name,sample_rate,channels,duration', '-of', 'json', file],
    { encoding: 'utf8' },
  );
  return (JSON.parse(text) as { streams: [Record<string, string>] }).streams[0];
}

export function rms(samples: Float32Array, fromMs: number, toMs: number): number {
  const stretch = samples.subarray((fromMs * rate) / 1000, (toMs * rate) / 1000);
  return 10 * Math.log10(stretch.reduce((sum, sample) => sum + sample * sample, 0) / stretch.length);
}
