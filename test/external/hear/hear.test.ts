import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import {
  bankPlaces,
  checkBank,
  type HearPart,
  hear,
  oggSink,
  preferredBanks,
} from '../../../src/sound/hear/index.js';
import {
  bankFile,
  fluidsynth,
  heardTo,
  loudnessOf,
  onsetAfter,
  probe,
  rate,
  rms,
  samplesOf,
} from './tools.js';

const folder = mkdtempSync(join(tmpdir(), 'keyslip-hear-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
let count = 0;
const next = () => join(folder, `${++count}.wav`);

/** General MIDI 1 (RP-003, table 2), of sounds whose beginnings are short. */
const quick = { trumpet: 56, pizzicato: 45, timpani: 47, harp: 46, piano: 0, clarinet: 71 } as const;

/** Of which the bank's attacks are slow; ours are cut short, so that only our own sounds can be compared. */
const slow = { horn: 60, strings: 48, tremolo: 44, choir: 52 } as const;

function partOf(program: number, more: Partial<HearPart> = {}): HearPart {
  return { name: `${program}`, program, articulations: [], notes: [], controllers: [], ...more };
}

describe('onsets', () => {
  const played = Array.from({ length: 8 }, (_, index) => 500 + index * 700 + ((index * 37) % 90));
  const notes = played.map((onsetMs, index) => ({
    onsetMs,
    endMs: onsetMs + 350,
    pitch: 55 + ((index * 5) % 12),
    velocity: 90,
  }));

  /** When each note is heard to begin, by −15 dB of its maximum. */
  const onsetsOf = (file: string, late: number) => {
    const samples = samplesOf(file);
    return played.map((ms) => onsetAfter(samples, ms + late - 60, ms + late + 300, -15));
  };

  it.each(Object.entries(quick))(
    'of a compensated line fall where fluidsynth plays the line as played, ±3 ms: %s',
    async (_name, program) => {
      const [reference, ours, uncompensated] = [next(), next(), next()];
      fluidsynth(reference, [partOf(program, { notes })]);
      const delayMs = 95;
      const early = notes.map((note) => ({ ...note, onsetMs: note.onsetMs - delayMs, delayMs }));
      await heardTo(ours, [partOf(program, { notes: early })]);
      await heardTo(uncompensated, [partOf(program, { notes: notes.map((note) => ({ ...note, delayMs })) })]);
      // fluidsynth works in buffers of 64 frames and is late by one or two of them, the same for all notes
      const meant = onsetsOf(reference, 0);
      for (const [file, late] of [
        [ours, 0],
        [uncompensated, delayMs],
      ] as const) {
        const apart = onsetsOf(file, late).map((ms, index) => ms - late - (meant[index] ?? 0));
        const common = [...apart].sort((a, b) => a - b)[apart.length >> 1] ?? 0;
        expect(Math.abs(common)).toBeLessThan(3);
        for (const [index, difference] of apart.entries())
          expect(Math.abs(difference - common), `note ${index}`).toBeLessThan(3);
      }
    },
  );

  it.each(Object.entries(slow))(
    'of slow sounds are heard in time and late likewise: %s',
    async (_name, program) => {
      const [asPlayed, compensated] = [next(), next()];
      const delayMs = 140;
      const early = notes.map((note) => ({ ...note, onsetMs: note.onsetMs - delayMs, delayMs }));
      await heardTo(asPlayed, [partOf(program, { notes })], { asPlayed: true });
      await heardTo(compensated, [partOf(program, { notes: early })]);
      const meant = onsetsOf(asPlayed, 0);
      onsetsOf(compensated, 0).forEach((ms, index) => {
        expect(Math.abs(ms - (meant[index] ?? 0)), `note ${index}`).toBeLessThan(3);
      });
    },
  );
});

describe('levels', () => {
  const notes = [{ onsetMs: 0, endMs: 6000, pitch: 67, velocity: 100 }];
  const with711 = (volume: number, expression: number) =>
    partOf(quick.clarinet, {
      notes,
      controllers: [
        { ms: 0, controller: 7, value: volume },
        { ms: 0, controller: 11, value: expression },
      ],
    });

  it('follow 40 · log10(value/127) by ebur128, ±0.5 dB (General MIDI 2, 3.3.4), as in fluidsynth', async () => {
    const loudness = async (volume: number, expression: number) => {
      const [ours, theirs] = [next(), next()];
      const { gain } = await heardTo(ours, [with711(volume, expression)]);
      fluidsynth(theirs, [with711(volume, expression)]);
      return { ours: loudnessOf(ours, 1, 4) - gain, theirs: loudnessOf(theirs, 1, 4) };
    };
    const full = await loudness(127, 127);
    for (const [volume, expression] of [
      [96, 127],
      [64, 127],
      [127, 64],
      [64, 96],
      [32, 127],
    ] as const) {
      const law = 40 * Math.log10(volume / 127) + 40 * Math.log10(expression / 127);
      const found = await loudness(volume, expression);
      expect(Math.abs(found.ours - full.ours - law), `${volume} ${expression}`).toBeLessThan(0.5);
      expect(Math.abs(found.theirs - full.theirs - law), 'fluidsynth').toBeLessThan(0.5);
    }
  });

  it('between parts are those of fluidsynth, ±1 dB', async () => {
    const alone = async (program: number) => {
      const [ours, theirs] = [next(), next()];
      const { gain } = await heardTo(ours, [partOf(program, { notes })]);
      fluidsynth(theirs, [partOf(program, { notes })]);
      return { ours: loudnessOf(ours, 1, 4) - gain, theirs: loudnessOf(theirs, 1, 4) };
    };
    const clarinet = await alone(quick.clarinet);
    for (const program of [quick.trumpet, slow.horn, 73, 70]) {
      const other = await alone(program);
      const difference = other.ours - clarinet.ours - (other.theirs - clarinet.theirs);
      expect(Math.abs(difference), `${program}`).toBeLessThan(1);
    }
  });

  it('of the two sides follow RP-036, ±0.5 dB', async () => {
    for (const value of [1, 16, 32, 64, 96, 112, 127]) {
      const file = next();
      const part = partOf(quick.clarinet, { notes, controllers: [{ ms: 0, controller: 10, value }] });
      await heardTo(file, [part]);
      const [left, right] = [
        rms(samplesOf(file, 'left'), 1000, 5000),
        rms(samplesOf(file, 'right'), 1000, 5000),
      ];
      const x = Math.max(0, value - 1) / 126;
      if (x === 0) expect(right).toBeLessThan(-120);
      else if (x === 1) expect(left).toBeLessThan(-120);
      else expect(Math.abs(right - left - 20 * Math.log10(Math.tan((Math.PI * x) / 2)))).toBeLessThan(0.5);
    }
  });
});

describe('silence', () => {
  const orchestra = [0, 40, 44, 45, 46, 47, 48, 52, 56, 57, 58, 59, 60, 68, 70, 71, 73].map(
    (program, index) =>
      partOf(program, {
        name: `part ${index}`,
        notes: [48, 55, 64].map((pitch) => ({
          onsetMs: 1000 + index * 50,
          endMs: 2500,
          pitch: pitch + (index % 5),
          velocity: 100,
        })),
        controllers: [{ ms: 1000, controller: 64, value: index % 3 === 0 ? 127 : 0 }],
      }),
  );

  it('is at the end: nothing hangs', async () => {
    const file = next();
    const { frames, peak } = await heardTo(file, orchestra);
    const seconds = frames / rate;
    expect(seconds).toBeLessThan(2.5 + 8.01);
    expect(rms(samplesOf(file), seconds * 1000 - 50, seconds * 1000)).toBeLessThan(-60);
    expect(peak).toBeLessThanOrEqual(-1 + 1e-6);
  });

  it('is a part that is not heard', async () => {
    const file = next();
    const { notes } = await heardTo(file, [partOf(0, { name: 'muted', notes: orchestra[0]?.notes ?? [] })], {
      parts: [],
      clicks: [{ ms: 3000, isStrong: true }],
    });
    expect(notes).toBe(0);
    const samples = samplesOf(file);
    expect(samples.subarray(0, 3 * rate).every((sample) => sample === 0)).toBe(true);
    expect(rms(samples, 3000, 3020)).toBeGreaterThan(-40);
  });
});

describe('files', () => {
  const part = partOf(quick.trumpet, { notes: [{ onsetMs: 0, endMs: 500, pitch: 67, velocity: 100 }] });

  it('are read by ffprobe as what they are', async () => {
    for (const [format, codec] of [
      ['16', 'pcm_s16le'],
      ['24', 'pcm_s24le'],
      ['float', 'pcm_f32le'],
    ] as const)
      for (const sampleRate of [44_100, 48_000] as const) {
        const file = next();
        const { frames } = await heardTo(file, [part], { sampleRate }, format);
        const { codec_name, sample_rate, channels, duration } = probe(file);
        expect([codec_name, sample_rate, channels]).toEqual([codec, `${sampleRate}`, 2]);
        expect(Number(duration)).toBeCloseTo(frames / sampleRate, 4);
      }
  });

  it('of Ogg Vorbis begin at their first sample, and are small', async () => {
    const [plain, small] = [next(), join(folder, 'small.ogg')];
    const chunks: Uint8Array[] = [];
    const sink = await oggSink((bytes) => {
      chunks.push(bytes);
    });
    if (!sink.ok) throw new Error(sink.problem.message);
    const notes = [200, 900, 1600].map((onsetMs) => ({
      onsetMs,
      endMs: onsetMs + 500,
      pitch: 67,
      velocity: 100,
    }));
    const line = partOf(quick.trumpet, { notes });
    await heardTo(plain, [line]);
    const bank = new Uint8Array(readFileSync(bankFile));
    const heard = await hear([line], bank, { sampleRate: rate }, { format: 'float', sink: sink.value });
    writeFileSync(small, Buffer.concat(chunks));
    expect(heard.ok).toBe(true);
    expect(probe(small)).toMatchObject({ codec_name: 'vorbis', sample_rate: `${rate}`, channels: 2 });
    const [a, b] = [samplesOf(plain), samplesOf(small)];
    for (const ms of [200, 900, 1600])
      expect(
        Math.abs(onsetAfter(a, ms - 50, ms + 300, -15) - onsetAfter(b, ms - 50, ms + 300, -15)),
      ).toBeLessThan(2);
    expect(readFileSync(small).length).toBeLessThan(readFileSync(plain).length / 10);
  });

  it('of compressed samples (sf3, made by sf3convert) sound as those that they were made from', async () => {
    const small = join(folder, 'small.sf3');
    // it reads no display, but asks for one
    execFileSync('sf3convert', ['-z', '-q', '1.0', bankFile, small], {
      env: { ...process.env, QT_QPA_PLATFORM: 'offscreen' },
      stdio: 'ignore',
    });
    expect(checkBank(new Uint8Array(readFileSync(small))).ok).toBe(true);
    const [plain, compressed] = [next(), next()];
    await heardTo(plain, [part]);
    await heardTo(compressed, [part], {}, '24', small);
    // sf3convert turns samples down by 1 dB, so that none clips
    const softer = rms(samplesOf(plain), 0, 500) - rms(samplesOf(compressed), 0, 500);
    expect(Math.abs(softer - 1)).toBeLessThan(0.3);
    const [a, b] = [plain, compressed].map((file) => onsetAfter(samplesOf(file), 0, 400, -15));
    expect(Math.abs((a ?? 0) - (b ?? 0))).toBeLessThan(1);
  });

  it('of banks lie where they are looked for', () => {
    expect(bankPlaces).toContain(dirname(bankFile));
    expect(preferredBanks.some((begin) => basename(bankFile).startsWith(begin))).toBe(true);
  });

  it('of a real bank, cut anywhere, are refused', () => {
    const bytes = new Uint8Array(readFileSync(bankFile));
    for (const share of [0.001, 0.1, 0.5, 0.9, 0.999999]) {
      const cut = checkBank(bytes.slice(0, Math.floor(bytes.length * share)));
      expect(cut.ok ? '' : cut.problem.code).toBe('bank-truncated');
    }
    writeFileSync(join(folder, 'noise.sf2'), bytes.slice(1000, 50_000));
    expect(checkBank(new Uint8Array(readFileSync(join(folder, 'noise.sf2')))).ok).toBe(false);
  });
});
