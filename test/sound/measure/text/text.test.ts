import { describe, expect, it } from 'vitest';
import { measureText } from '../../../../src/sound/measure/index.js';
import { bar, rangeLine } from '../../../../src/sound/measure/text/plot.js';
import { result } from '../result.js';

const text = measureText(result, 4);

describe('a result as text', () => {
  it('tells everything', () => {
    expect(text.split('\n').slice(0, 8)).toEqual(
      [
        'bounce: 48000 Hz, 24 bits, bar 1 at 0.2500 s, drift 0.0 parts in a million, noise -82.3 LUFS (room)',
        '',
        'speaks after                  time         used  rejected          lasts',
        'sustain                      86 ms    ± 40    15         1        as held',
        '  joined to the note before  140 ms  ± 2.0     4',
        '  pitch to F#3               100 ms  ± 1.5     8',
        '  all other notes             70 ms  ± 2.5     8',
        'staccato                      12 ms  ± 6.0    16         0  240 ms, rings',
      ].map((line) =>
        expect.stringMatching(
          new RegExp(`^${line.replace(/[.*+?^${}()|[\]\\]/gu, '\\$&').replace(/ +/gu, ' +')}$`, 'u'),
        ),
      ),
    );
    for (const part of [
      'levels: pp 14, p 33, mp 50, mf 72, f 127, ff 127 (not reached)',
      'reference level (mf): -36.1 LUFS',
      'seat -0.30 (left), width 0.62',
      'controller 10, right less left: 1 -6.0 dB, 127 5.5 dB',
      'sustain: 2 silent keys: B4 C5',
    ])
      expect(text).toContain(part);
  });

  it('fits a terminal, and has nothing in it that a terminal obeys', () => {
    expect(text).not.toMatch(/[^\n\P{Cc}]/u);
    expect(text).toContain('it rises slowly\\u{1b}[31m');
    for (const line of text.split('\n').filter((one) => !one.startsWith('bounce')))
      expect(line.length).toBeLessThan(110);
  });

  it('says less where less is known', () => {
    const little = measureText(
      {
        ...result,
        articulations: {},
        levels: [],
        velocities: [],
        marks: [],
        referenceLevel: null,
        seat: null,
        width: null,
        doubts: [],
        bounce: { ...result.bounce, clicks: 'none', noise: null },
      },
      4,
    );
    expect(little).toBe(
      'bounce: 48000 Hz, 24 bits, no clicks, noise none (room)\n\nspeaks after  time    used  rejected  lasts\n',
    );
  });
});

describe('plots', () => {
  it('stand in proportion', () => {
    expect(rangeLine(0, 0, 100, 100)).toBe(`o${'-'.repeat(46)}|`);
    expect(rangeLine(50, 100, 100, 100).indexOf('|')).toBe(24);
    expect([bar(-20, -40, 0).length, bar(0, -40, 0).length, bar(-80, -40, 0).length]).toEqual([24, 48, 1]);
  });
});
