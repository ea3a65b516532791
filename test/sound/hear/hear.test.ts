import { describe, expect, it } from 'vitest';
import { type HearNote, hear } from '../../../src/sound/hear/index.js';
import { testBank } from './support/bank.js';
import { levelOf, onsetOf, part, rate, rendered, tryRender } from './support/render.js';

const note: HearNote = { onsetMs: 500, endMs: 1500, pitch: 69, velocity: 100 };

function frameOf(ms: number): number {
  return (ms * rate) / 1000;
}

describe('hear: time', () => {
  it('begins a note at its onset, to a few frames: silence before it is kept', async () => {
    const { left } = await rendered([part({ notes: [note] })]);
    expect(onsetOf(left) - frameOf(500)).toBeGreaterThanOrEqual(0);
    expect(onsetOf(left) - frameOf(500)).toBeLessThan(48);
  });

  it('hears an uncompensated note late, and a compensated one in time', async () => {
    const played = onsetOf((await rendered([part({ notes: [note] })])).left);
    const late = await rendered([part({ notes: [{ ...note, delayMs: 90 }] })]);
    const early = await rendered([part({ notes: [{ ...note, onsetMs: 410, delayMs: 90 }] })]);
    // the first block of a voice is cut elsewhere in the synthesiser's grid: a frame or two
    expect(Math.abs(onsetOf(late.left) - played - frameOf(90))).toBeLessThan(4);
    expect(Math.abs(onsetOf(early.left) - played)).toBeLessThan(4);
  });

  it('ends by itself, silent', async () => {
    const { left, right, heard } = await rendered([part({ notes: [note] })]);
    expect(heard.frames).toBe(left.length);
    expect(left.length / rate).toBeLessThan(2.5);
    expect(levelOf(left, (1000 * left.length) / rate - 5, (1000 * left.length) / rate)).toBeLessThan(-60);
    expect(right.length).toBe(left.length);
  });

  it('lets go what a pedal would hold behind the last note', async () => {
    const controllers = [{ ms: 0, controller: 64, value: 127 }];
    const { left } = await rendered([part({ notes: [note], controllers })]);
    expect(left.length / rate).toBeLessThan(2.5);
    expect(levelOf(left, 1500, 1520)).toBeGreaterThan(-60);
  });

  it('waits for a pedal that comes up behind the last note', async () => {
    const controllers = [
      { ms: 0, controller: 64, value: 127 },
      { ms: 3000, controller: 64, value: 0 },
      { ms: 3500, controller: 11, value: 0 },
    ];
    const { left } = await rendered([part({ notes: [note], controllers })]);
    expect(levelOf(left, 2900, 2950)).toBeGreaterThan(-30);
    expect(left.length / rate).toBeGreaterThan(2.99);
    expect(left.length / rate).toBeLessThan(3.5);
  });

  it('fades out what would ring for minutes', async () => {
    // generator 38, releaseVolEnv: 8000 timecents are 102 s
    const { left } = await rendered([part({ notes: [note] })], {}, testBank({ generators: [[38, 8000]] }));
    expect(left.length / rate).toBeCloseTo(9.5, 3);
    expect(Math.abs(left.at(-1) ?? 1)).toBeLessThan(1e-4);
  });

  it('hears a range, in which notes from before it are struck at its beginning', async () => {
    const notes = [note, { ...note, onsetMs: 2000, endMs: 3000 }];
    const { left, heard } = await rendered([part({ notes })], { range: { fromMs: 1000, toMs: 2000 } });
    expect(heard.notes).toBe(1);
    expect(onsetOf(left)).toBeLessThan(48);
    expect(left.length / rate).toBeLessThan(0.7);
  });
});

describe('hear: level', () => {
  const plain = part({ notes: [note] });
  const at = async (controllers: { ms: number; controller: number; value: number }[], more = {}) => {
    const { left } = await rendered([{ ...plain, ...more, controllers }]);
    return levelOf(left, 700, 1400);
  };

  it('follows 40 · log10(value/127), General MIDI 2, 3.3.4 and 3.3.6 (printed figures)', async () => {
    const full = await at([
      { ms: 0, controller: 7, value: 127 },
      { ms: 0, controller: 11, value: 127 },
    ]);
    for (const [volume, expression, printed] of [
      [96, 127, -4.9],
      [64, 127, -11.9],
      [32, 127, -23.9],
      [16, 127, -36.0],
      [64, 64, -23.8],
      [32, 96, -28.8],
    ] as const) {
      const found = await at([
        { ms: 0, controller: 7, value: volume },
        { ms: 0, controller: 11, value: expression },
      ]);
      expect(Math.abs(found - full - printed)).toBeLessThan(0.5);
    }
  });

  it('hears the dynamics controller as a level, where a note takes its loudness from it', async () => {
    const dynamics = {
      dynamicsController: 1,
      articulations: [
        { name: 'long', means: ['tenuto'], loudness: 'controller' as const },
        { name: 'short', means: ['tenuto'], loudness: 'velocity' as const },
      ],
    };
    const value = (of: number) => [{ ms: 0, controller: 1, value: of }];
    const long = { ...dynamics, notes: [{ ...note, velocity: 20, articulation: 'long' }] };
    const short = { ...dynamics, notes: [{ ...note, articulation: 'short' }] };
    expect((await at(value(64), long)) - (await at(value(127), long))).toBeCloseTo(-11.9, 0);
    expect((await at(value(64), short)) - (await at(value(127), short))).toBeCloseTo(0, 3);
  });

  it('pans by RP-036', async () => {
    // x = max(0, value − 1)/126
    for (const value of [0, 1, 32, 64, 96, 127]) {
      const controllers = [{ ms: 0, controller: 10, value }];
      const { left, right } = await rendered([part({ notes: [note], controllers })]);
      const x = Math.max(0, value - 1) / 126;
      const [l, r] = [levelOf(left, 700, 1400), levelOf(right, 700, 1400)];
      if (x === 0) expect(r).toBeLessThan(l - 90);
      else if (x === 1) expect(l).toBeLessThan(r - 90);
      else expect(Math.abs(r - l - 20 * Math.log10(Math.tan((Math.PI * x) / 2)))).toBeLessThan(0.1);
    }
  });

  it('stays below −1 dBFS by one gain for all, and is never made louder', async () => {
    const many = Array.from({ length: 40 }, (_, index) => part({ name: `${index}`, notes: [note] }));
    const loud = await rendered(many);
    const peak = loud.left.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(20 * Math.log10(peak)).toBeLessThanOrEqual(-1 + 1e-6);
    expect(20 * Math.log10(peak)).toBeGreaterThan(-1.01);
    expect(loud.heard.gain).toBeLessThan(-2);
    const soft = await rendered([part({ notes: [{ ...note, velocity: 20 }] })]);
    expect(soft.heard.gain).toBe(0);
  });

  it('hears neither a part that is left out nor one that is not solo', async () => {
    const quiet = part({ name: 'b', notes: [{ ...note, onsetMs: 100, endMs: 400 }] });
    for (const options of [{ parts: ['a'] }, { solo: ['a'] }]) {
      const { left, heard } = await rendered([plain, quiet], options);
      expect(left.subarray(0, frameOf(500)).every((sample) => sample === 0)).toBe(true);
      expect(heard.notes).toBe(1);
    }
    const silent = await tryRender([plain], { parts: [] });
    expect(silent.ok ? '' : silent.problem.code).toBe('nothing-to-hear');
  });

  it('puts clicks in, with notes and without', async () => {
    const clicks = [
      { ms: 0, isStrong: true },
      { ms: 250, isStrong: false },
    ];
    const { left, right } = await rendered([part({ notes: [note] })], { clicks });
    expect(levelOf(left, 0, 20)).toBeGreaterThan(-40);
    expect(levelOf(left, 250, 270)).toBeGreaterThan(-40);
    expect(levelOf(left, 60, 200)).toBe(Number.NEGATIVE_INFINITY);
    expect(left.subarray(0, 1000)).toEqual(right.subarray(0, 1000));
    expect((await rendered([], { clicks })).heard.notes).toBe(0);
  });
});

describe('hear: result', () => {
  it('is the same for the same input', async () => {
    const parts = [part({ notes: [note] }), part({ name: 'b', notes: [{ ...note, pitch: 64 }] })];
    expect(await rendered(parts)).toEqual(await rendered(parts));
  });

  it('lists articulations that nothing stands in for, and programs that the bank lacks', async () => {
    const notes = [
      { ...note, articulation: 'swirl' },
      { ...note, onsetMs: 1600, endMs: 1700, articulation: 'short' },
    ];
    const articulations = [
      { name: 'swirl', means: [] },
      { name: 'short', means: ['staccato'] },
    ];
    const { heard } = await rendered([part({ program: 60, notes, articulations })]);
    expect(heard.plain).toEqual([{ part: 'a', articulation: 'swirl', notes: 1 }]);
    expect(heard.substitutes).toEqual([{ program: 60, isKit: false, heard: 'p0' }]);
  });

  it('has room for more parts than 16, and no kit on the tenth channel', async () => {
    const parts = Array.from({ length: 40 }, (_, index) =>
      part({ name: `${index}`, isKit: index === 20, notes: [{ ...note, onsetMs: index * 20, endMs: 1500 }] }),
    );
    const { heard } = await rendered(parts, {}, testBank({ isKit: true }));
    expect(heard).toMatchObject({ notes: 40, substitutes: [] });
    // a bank without a kit
    const lacking = await rendered(parts);
    expect(lacking.heard.substitutes).toEqual([{ program: 0, isKit: true, heard: 'p0' }]);
  });

  it('tells how far it is', async () => {
    const told: number[] = [];
    const { hear } = await import('../../../src/sound/hear/index.js');
    await hear(
      [part({ notes: [note] })],
      testBank(),
      { sampleRate: 44_100 },
      {
        format: '16',
        sink: { begin() {}, write() {}, end() {} },
        onProgress: ({ frames, of }) => told.push(frames / of),
      },
    );
    expect(told.length).toBeGreaterThan(3);
    expect(told).toEqual([...told].sort((a, b) => a - b));
    expect(told.at(-1)).toBe(1);
  });
});

describe('hear: what goes wrong while it renders', () => {
  it('is told as a problem, and nothing is written', async () => {
    const written: string[] = [];
    const sink = {
      begin: () => void written.push('begin'),
      write: () => void written.push('write'),
      end: () => void written.push('end'),
    };
    const onProgress = () => {
      throw new Error('out of voices');
    };
    const result = await hear(
      [part({ notes: [note] })],
      testBank(),
      { sampleRate: 48_000 },
      {
        format: '16',
        sink,
        onProgress,
      },
    );
    expect(result).toMatchObject({ ok: false, problem: { code: 'sound-failed' } });
    expect(written).toEqual([]);
  });
});
