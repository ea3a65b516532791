import { beforeAll, describe, expect, it } from 'vitest';
import { type MeasureResult, measureBounce, probePlan } from '../../../../src/sound/measure/index.js';
import { WavError, wavBytes } from '../../../../src/sound/signal/index.js';
import { some } from '../../../support/draws.js';
import { articulation, libraryOf, short } from '../library.js';
import { type BounceOptions, bounceOf, opening, type Sound } from '../synthetic.js';

/** An invented library, and what is true of it. */
const library = libraryOf([
  articulation('slow'),
  articulation('joined', { overlapMs: 40 }),
  short('brief'),
  short('twin'),
]);
const plan = probePlan(library, { quick: true });
/** What a bounce is spoilt by is seen at one long articulation and one short one: half as many notes. */
const pair = libraryOf([articulation('slow'), short('brief')]);
const pairPlan = probePlan(pair, { quick: true });
/** What is told of a whole bounce needs no more notes than these. */
const few = libraryOf([short('brief')]);
const fewPlan = probePlan(few, { quick: true });
const highest = ({ slots }: typeof plan) =>
  Math.max(...slots.flatMap(({ notes }) => notes.map(({ pitch }) => pitch)));
const silentPitch = highest(plan);

const delays: Readonly<Record<string, number>> = { slow: 0.085, joined: 0.03, brief: 0.012, twin: 0.012 };
/** What the controller or velocity does: 30 dB from 0 to 127, in a straight line. */
const loudness = (value: number) => 0.2 * 10 ** ((30 * (value / 127 - 1)) / 20);

function voice(
  { articulation: name, value, pan, notes: [note] }: (typeof plan.slots)[number],
  index: number,
): Sound | undefined {
  const isShort = name === 'brief' || name === 'twin';
  if (name === 'slow' && note?.pitch === silentPitch) return undefined;
  return {
    delay: index > 0 ? 0.11 : (delays[name] ?? 0),
    rise: isShort ? 0.002 : 0.04,
    gain: loudness(isShort ? (note?.velocity ?? 0) : (value ?? 0)),
    // A recording that answers the pan controller by a third of the way.
    seat: 0.25 + (pan - 64) / 189,
    ...(isShort ? { decay: 0.08 } : {}),
  };
}

const measured = (options: BounceOptions = {}, of = voice) =>
  measureBounce(library, opening(bounceOf(plan, of, options)));
const pairMeasured = (options: BounceOptions) =>
  measureBounce(pair, opening(bounceOf(pairPlan, voice, options)));
const fewMeasured = (options: BounceOptions, of = voice) =>
  measureBounce(few, opening(bounceOf(fewPlan, of, options)));

/** The same note alone in the same method: what an attack without delay is heard after. */
let still: MeasureResult;
let plain: MeasureResult;
/** How far the plain one said that it was. */
const shares: number[] = [];

beforeAll(async () => {
  const onProgress = (share: number) => shares.push(share);
  plain = await measureBounce(library, opening(bounceOf(plan, voice, { start: 1.2345 })), { onProgress });
  still = await measured({ start: 0 }, (slot, index) => {
    const sound = voice(slot, index);
    return sound && { ...sound, gain: 0.1, delay: 0 };
  });
}, 120_000);

const delayOf = (result: MeasureResult, name: string) =>
  (result.articulations[name]?.speaksAfterMs ?? Number.NaN) -
  (still.articulations[name]?.speaksAfterMs ?? Number.NaN);

describe('a bounce of an invented library', () => {
  it('knows its plan, its start to a tenth of a millisecond, and that it does not drift', () => {
    expect(plain.bounce).toMatchObject({
      clicks: 'both',
      plan: { quick: true, room: false },
      sampleRate: 44_100,
      bits: 24,
    });
    expect(Math.abs(plain.bounce.startSeconds - 1.2345)).toBeLessThan(1e-4);
    expect(Math.abs(plain.bounce.driftPpm)).toBeLessThan(1);
  });

  it.each(Object.keys(delays))('%s speaks after what it was delayed by, within 2 ms', (name) => {
    expect(Math.abs(delayOf(plain, name) - 1000 * (delays[name] ?? 0))).toBeLessThan(2);
    expect(plain.articulations[name]?.uncertaintyMs).toBeGreaterThan(0);
  });

  it('tells joined notes apart', () => {
    const [first, last] = plain.articulations.joined?.steps ?? [];
    expect(first?.when).toEqual({ 'overlaps-previous': true });
    const own = still.articulations.joined?.speaksAfterMs ?? Number.NaN;
    expect(Math.abs((first?.isMs ?? 0) - own - 110)).toBeLessThan(10);
    expect(last?.when).toBeNull();
  });

  it('knows what controller and velocity do, within 0.2 dB', () => {
    const [low, high] = plain.levels;
    expect((high?.dB ?? 0) - (low?.dB ?? 0)).toBeCloseTo((30 * 60) / 127, 0);
    expect(Math.abs((high?.dB ?? 0) - (low?.dB ?? 0) - (30 * 60) / 127)).toBeLessThan(0.2);
    const brief = plain.velocities.filter((one) => one.articulation === 'brief').map(({ dB }) => dB);
    expect(Math.abs((brief[1] ?? 0) - (brief[0] ?? 0) - (30 * 60) / 127)).toBeLessThan(0.2);
  });

  it('knows its seat within 0.05, its width within 0.2, and what pan does to it', () => {
    expect(Math.abs((plain.seat ?? 9) - 0.25)).toBeLessThan(0.05);
    expect(plain.width).toBeLessThan(0.2);
    expect(plain.pan.map(({ value }) => value)).toEqual([1, 64, 127]);
    // tan((seat + 1) · π/4) for seats 0.25 ∓ 1/3, in dB.
    const expected = [1, 64, 127].map(
      (pan) => 20 * Math.log10(Math.tan((Math.PI * (1.25 + (pan - 64) / 189)) / 4)),
    );
    plain.pan.forEach(({ dB }, index) => {
      expect(Math.abs(dB - (expected[index] ?? 0))).toBeLessThan(0.2);
    });
  });

  it('names silent keys, and articulations that sound alike', () => {
    expect(plain.articulations.slow?.silentKeys).toEqual([silentPitch]);
    expect(plain.articulations.joined?.silentKeys).toEqual([]);
    expect(plain.alike.map(({ articulations }) => articulations)).toEqual([['brief', 'twin']]);
  });

  it('knows how long short notes last', () => {
    expect(plain.articulations.brief?.length).toMatchObject({ followsKey: false });
    // 2.303 · 80 ms after a delay of 12.
    expect(Math.abs((plain.articulations.brief?.length?.ms ?? 0) - 197)).toBeLessThan(15);
    expect(plain.articulations.joined?.length?.followsKey).toBe(true);
  });
});

describe('bounces that are less good', () => {
  const drifts = [
    [{ speed: 1.0003, start: 2 }, 300],
    [{ speed: 0.9999, start: 0.1, sampleRate: 48_000 }, -100],
    [{ speed: 1.002, start: 20 }, 2000],
  ] as const;
  it.each(some(drifts))('%o: the drift is found and taken out', async (options, ppm) => {
    const result = await pairMeasured(options);
    // A tenth of a millisecond over the length of the bounce.
    expect(Math.abs(result.bounce.driftPpm - ppm)).toBeLessThan((1e-4 / pairPlan.seconds) * 1e6);
    expect(Math.abs(result.bounce.startSeconds - options.start)).toBeLessThan(1e-4);
    for (const name of ['slow', 'brief'])
      expect(Math.abs(delayOf(result, name) - 1000 * (delays[name] ?? 0))).toBeLessThan(2);
    expect(result.doubts.some(({ text }) => text.includes('parts in a million'))).toBe(Math.abs(ppm) > 200);
  });

  it('in noise of −70 dB it is measured within 2 ms and 0.3 dB', async () => {
    const result = await pairMeasured({ noise: -70 });
    expect(Math.abs(result.bounce.startSeconds - 0.37)).toBeLessThan(1e-4);
    for (const name of ['slow', 'brief'])
      expect(Math.abs(delayOf(result, name) - 1000 * (delays[name] ?? 0))).toBeLessThan(2);
    result.levels.forEach(({ dB }, index) => {
      expect(Math.abs(dB - (plain.levels[index]?.dB ?? 0))).toBeLessThan(0.3);
    });
    expect(Math.abs((result.bounce.noise ?? 0) + 64)).toBeLessThan(1.5);
    expect(Math.abs((result.seat ?? 9) - 0.25)).toBeLessThan(0.1);
    expect(result.articulations.slow?.silentKeys).toEqual([silentPitch]);
  });

  it('without clicks no delay is told, and why; the rest is measured', async () => {
    const bytes = bounceOf(pairPlan, voice, { clicks: 'none', start: 0 });
    // Which plan it was is told by its length.
    const result = await measureBounce(pair, opening(bytes));
    expect(result.bounce.clicks).toBe('none');
    expect(Object.values(result.articulations).map(({ speaksAfterMs }) => speaksAfterMs)).toEqual([
      null,
      null,
    ]);
    expect(result.bounce.plan).toEqual({ quick: true, room: false });
    result.levels.forEach(({ dB }, index) => {
      expect(Math.abs(dB - (plain.levels[index]?.dB ?? 0))).toBeLessThan(0.2);
    });
    expect(result.doubts[0]?.text).toContain('clicks were not found');
  });

  it('with clicks at its start alone it is taken to run true', async () => {
    const result = await pairMeasured({ clicks: 'start' });
    expect(result.bounce).toMatchObject({ clicks: 'start', driftPpm: 0 });
    expect(Math.abs(delayOf(result, 'slow') - 85)).toBeLessThan(2);
    expect(result.doubts.some(({ text }) => text.includes('run true'))).toBe(true);
  });

  it('cut short it tells how many notes are missing', async () => {
    const result = await fewMeasured({ until: fewPlan.seconds / 2 });
    expect(result.doubts.map(({ text }) => text).join()).toMatch(/ends before \d+ notes of/u);
  });

  it('of another map is not taken for one of this', async () => {
    const other = libraryOf([...few.articulations, short('more')]);
    expect((await fewMeasured({})).bounce.clicks).toBe('both');
    expect((await measureBounce(other, opening(bounceOf(fewPlan, voice)))).bounce.clicks).toBe('none');
  });

  it('of nothing but noise tells nothing', async () => {
    const result = await fewMeasured({ noise: -50 }, () => undefined);
    expect(result.seat).toBeNull();
    expect(result.referenceLevel).toBeNull();
    expect(result.levels).toEqual([]);
    expect(result.doubts.some(({ text }) => text.includes('notes are not heard'))).toBe(true);
  });

  it('in mono is refused with a reason', async () => {
    const mono = wavBytes({ sampleRate: 44_100, bits: 16 }, [new Float32Array(1000)]);
    const problem = await measureBounce(library, opening(mono)).catch((error: unknown) => error);
    expect(problem).toBeInstanceOf(WavError);
    expect(problem).toMatchObject({ code: 'wav-channels', message: 'it is mono' });
  });

  it('tells how far it is', () => {
    expect(shares).toEqual(shares.toSorted((a, b) => a - b));
    expect(shares.at(-1)).toBe(1);
  });
});
