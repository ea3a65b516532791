import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seatOf } from '../../../../src/sound/hear/schedule/controllers.js';
import { controlFrames, scheduleOf } from '../../../../src/sound/hear/schedule/index.js';
import { part, rate } from '../support/render.js';

const options = { sampleRate: rate } as const;
const note = { onsetMs: 100, endMs: 400, pitch: 60, velocity: 80 };
const short = { name: 'short', means: ['staccato'] };

function ofNote(more: object, articulation: object, extra = {}) {
  const { messages } = scheduleOf(
    [
      part({
        articulations: [{ ...short, ...articulation }],
        notes: [{ ...note, articulation: 'short', ...more }],
      }),
    ],
    { ...options, ...extra },
  );
  const on = messages.find(({ kind }) => kind === 'on');
  const off = messages.find(({ kind }) => kind === 'off');
  if (on?.kind !== 'on' || !off) throw new Error('no note');
  return {
    fromMs: (on.frame * 1000) / rate,
    toMs: (off.frame * 1000) / rate,
    key: on.key,
    velocity: on.velocity,
  };
}

describe('notes', () => {
  it('begin when the library would be heard to begin, and keep a short length behind it', () => {
    expect(ofNote({ delayMs: 60 }, {})).toMatchObject({ fromMs: 160, toMs: 310 });
    expect(ofNote({ delayMs: 60 }, { means: ['tenuto'] })).toMatchObject({ fromMs: 160, toMs: 400 });
    // let go before it speaks: heard all the same
    expect(ofNote({ delayMs: 350 }, { means: ['tenuto'] })).toMatchObject({ fromMs: 450, toMs: 490 });
  });

  it('take key, velocity and length from what the map says', () => {
    const standIn = { key: 38, velocityScale: 0.5, length: { mostMs: 50 } };
    expect(ofNote({}, { standIn })).toEqual({ fromMs: 100, toMs: 150, key: 38, velocity: 40 });
    expect(ofNote({ velocity: 127 }, { standIn: { velocityScale: 9 } }).velocity).toBe(127);
    expect(ofNote({ velocity: 1 }, { standIn: { velocityScale: 0.1 } }).velocity).toBe(1);
  });

  it('are as they were played where that is asked for', () => {
    expect(ofNote({ delayMs: 60 }, { standIn: { key: 38 } }, { asPlayed: true })).toEqual({
      fromMs: 100,
      toMs: 400,
      key: 60,
      velocity: 80,
    });
  });

  it('of one part and articulation share a sound; other parts have their own', () => {
    const one = part({ notes: [note, { ...note, articulation: 'short' }], articulations: [short] });
    const { sounds } = scheduleOf([one, { ...one, name: 'b' }], options);
    // a staccato has another attack
    expect(sounds.map(({ part: of, attack }) => [of, attack])).toEqual([
      [0, 64],
      [0, 63],
      [1, 64],
      [1, 63],
    ]);
  });

  it('all end, at any range, in order', () => {
    const notes = fc.array(
      fc.record({
        onsetMs: fc.integer({ min: 0, max: 5000 }),
        endMs: fc.integer({ min: 0, max: 6000 }),
        pitch: fc.integer({ min: 0, max: 127 }),
        velocity: fc.integer({ min: 1, max: 127 }),
        delayMs: fc.integer({ min: 0, max: 400 }),
        articulation: fc.constantFrom('short', 'other'),
      }),
    );
    fc.assert(
      fc.property(notes, fc.integer({ min: 0, max: 3000 }), (played, fromMs) => {
        const { messages, frames } = scheduleOf([part({ notes: played, articulations: [short] })], {
          ...options,
          range: { fromMs, toMs: fromMs + 1500 },
        });
        const open = new Map<string, number>();
        let before = 0;
        for (const message of messages) {
          expect(message.frame).toBeGreaterThanOrEqual(before);
          expect(message.frame).toBeLessThanOrEqual(frames);
          before = message.frame;
          if (message.kind !== 'on' && message.kind !== 'off') continue;
          const key = `${message.sound} ${message.key}`;
          open.set(key, (open.get(key) ?? 0) + (message.kind === 'on' ? 1 : -1));
        }
        expect([...open.values()].every((count) => count === 0)).toBe(true);
      }),
    );
  });
});

describe('controllers', () => {
  const of = (controllers: readonly { ms: number; controller: number; value: number }[], more = {}) =>
    scheduleOf([part({ notes: [note], controllers })], { ...options, ...more }).messages.filter(
      ({ kind }) => kind !== 'on' && kind !== 'off',
    );

  it('are kept where they mean something, on the grid of the synthesiser and never late', () => {
    const messages = of([
      { ms: 0, controller: 7, value: 90 },
      { ms: 33.3, controller: 64, value: 127 },
      { ms: 40, controller: 32, value: 1 },
    ]);
    expect(messages.map((message) => message.kind)).toEqual(['controller', 'controller']);
    for (const { frame } of messages) expect(frame % controlFrames).toBe(0);
    expect(messages[1]?.frame).toBe(1536);
  });

  it('in force before a range are in force at its beginning, the last value of each', () => {
    const messages = of(
      [
        { ms: 0, controller: 7, value: 90 },
        { ms: 10, controller: 7, value: 50 },
        { ms: 350, controller: 7, value: 20 },
        { ms: 900, controller: 7, value: 127 },
      ],
      { range: { fromMs: 200, toMs: 400 } },
    );
    expect(messages).toMatchObject([
      { frame: 0, controller: 7, value: 50 },
      { controller: 7, value: 20 },
    ]);
  });

  it('go back by RP-015 at controller 121: 11 to 127, 1 and 64 to 0, bend to the middle; 7 and 10 stay', () => {
    const [, ...reset] = of([
      { ms: 0, controller: 11, value: 20 },
      { ms: 50, controller: 121, value: 0 },
    ]);
    expect(reset).toContainEqual(expect.objectContaining({ kind: 'expression', value: 127 * 128 }));
    expect(reset).toContainEqual(expect.objectContaining({ kind: 'bend', value: 8192 }));
    for (const controller of [1, 64])
      expect(reset).toContainEqual(expect.objectContaining({ kind: 'controller', controller, value: 0 }));
    expect(reset.some((one) => one.kind === 'pan')).toBe(false);
  });

  it('8 and 10 add as differences of level between the sides', () => {
    expect(seatOf(64, 64)).toBe(0);
    expect(seatOf(32, 64)).toBeCloseTo(2 * (31 / 126) - 1, 12);
    expect(seatOf(64, 32)).toBeCloseTo(seatOf(32, 64), 12);
    expect(seatOf(32, 96)).toBeCloseTo(0, 12);
    expect(seatOf(127, 0)).toBe(1);
    expect(seatOf(64, 0)).toBe(-1);
  });
});
