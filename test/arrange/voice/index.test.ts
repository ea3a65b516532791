import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Chord,
  chordsOfSymbols,
  type SketchNote,
  slicesOf,
  type Voiced,
  type VoiceOptions,
  type VoicePart,
  voiceSketch,
} from '../../../src/arrange/index.js';
import { harmonyOf, voicingOf } from '../../../src/music/index.js';
import { voicingRemarks } from '../../../src/music/inspections/voicing.js';
import { instruments } from '../../../src/music/instruments/index.js';
import { draws } from '../../support/draws.js';
import { at, steady } from '../clock.js';

const span = (low: number, high: number) => ({ low, high });
const part = (
  name: string,
  range: { low: number; high: number },
  more: Partial<VoicePart> = {},
): VoicePart => {
  return { name, range: span(range.low, range.high), ...more };
};
const struck = (chords: readonly Chord[], strokes = 1): SketchNote[] =>
  chords.flatMap(({ tick, endTick, tones }) =>
    Array.from({ length: strokes }, (_, nth) => {
      const length = Math.floor((endTick - tick) / strokes);
      const from = tick + nth * length;
      return tones.map(({ pitch }) => ({
        tick: from,
        endTick: from + length - 20,
        pitch,
        velocity: 70 + nth,
        part: 0,
      }));
    }).flat(),
  );
const symbols = (text: string) => chordsOfSymbols(text, steady).chords;

function voice(notes: readonly SketchNote[], parts: readonly VoicePart[], options: VoiceOptions): Voiced {
  return voiceSketch(notes, steady, parts, options);
}

function voicingsOf({ parts }: Pick<Voiced, 'parts'>) {
  const notes = parts
    .flatMap(({ notes: own }, index) => own.map((note) => ({ ...note, part: index })))
    .sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
  return voicingOf(notes, harmonyOf(notes, steady, { per: 'found' }), steady);
}

/** What `inspect` remarks upon how chords are laid out. */
function remarked(voiced: Pick<Voiced, 'parts'>): readonly string[] {
  return voicingRemarks(voicingsOf(voiced), []).map(({ says }) => says);
}

const strings = [
  part('Violins I', instruments.violin),
  part('Violins II', instruments.violin),
  part('Violas', instruments.viola),
  part('Cellos', instruments.cello),
  part('Basses', instruments['double bass']),
];

describe('voiceSketch', () => {
  /**
   * By hand, in C major, with the tune E F D E E F D E over C F G C Am F G C. One inner voice, G3 to D4, each chord
   * wants what it lacks:
   * 1 C: the fifth, G3 (C4 would lack it, and be a semitone farther from bar 2). 2 F: the third, A3. 3 G: the third, B3.
   * 4 C: C4, a semitone on (G3 has the fifth, 2 semitones' worth, but lies 4 away and wide below the tune). 5 Am: the
   * third, C4. 6 F: the third, A3. 7 G: the third, B3. 8 C: C4 again, as in 4.
   */
  it('lays eight bars out as they were worked out by hand', () => {
    const bass = [36, 41, 43, 36, 45, 41, 43, 36];
    const tune = [64, 65, 62, 64, 64, 65, 62, 64];
    const inner = [55, 57, 59, 60, 60, 57, 59, 60];
    const triads = [
      ...[
        [48, 52, 55],
        [53, 57, 60],
        [55, 59, 62],
        [48, 52, 55],
      ],
      ...[
        [57, 60, 64],
        [53, 57, 60],
        [55, 59, 62],
        [48, 52, 55],
      ],
    ];
    const notes = triads.flatMap((triad, index) =>
      [...triad, tune[index] ?? 0].map((pitch) => {
        return { tick: at(index + 1, 1), endTick: at(index + 2, 1), pitch, velocity: 80, part: 0 };
      }),
    );
    const parts = [
      part('Top', span(60, 72), { register: span(60, 72) }),
      part('Inner', span(55, 62), { register: span(55, 62) }),
      part('Bass', span(36, 47), { register: span(36, 47) }),
    ];
    const { layouts, voices, remarks } = voice(notes, parts, { position: 'close' });
    expect(voices).toEqual(['Bass', 'Inner', 'Top']);
    expect(layouts.map(({ pitches }) => pitches)).toEqual(
      bass.map((low, index) => [low, inner[index], tune[index]]),
    );
    expect(remarks).toEqual([]);
  });

  it('keeps strokes with their lengths and velocities, and repeats a chord as it is', () => {
    const notes = struck(symbols('| Dm | Gm |'), 4);
    const { parts } = voice(notes, strings, { position: 'open', tune: 'none' });
    for (const { notes: own } of parts) {
      expect(own.map(({ tick }) => tick)).toEqual([0, 480, 960, 1440, 1920, 2400, 2880, 3360]);
      expect(own.map(({ velocity }) => velocity)).toEqual([70, 71, 72, 73, 70, 71, 72, 73]);
      expect(new Set(own.slice(0, 4).map(({ pitch }) => pitch)).size).toBe(1);
      expect(own.every(({ tick, endTick }) => endTick - tick === 460)).toBe(true);
    }
  });

  it('holds what the sketch holds under a moving tune', () => {
    const hold = [48, 55, 64].map((pitch) => ({ tick: 0, endTick: 1920, pitch, velocity: 60, part: 0 }));
    const line = [72, 74, 76, 72].map((pitch, index) => {
      return { tick: 480 * index, endTick: 480 * (index + 1), pitch, velocity: 90, part: 0 };
    });
    const { parts } = voice([...hold, ...line], strings.slice(0, 4), { position: 'close', tune: 'top' });
    expect(parts[0]?.notes.map(({ pitch, velocity }) => [pitch, velocity])).toEqual([
      [72, 90],
      [74, 90],
      [76, 90],
      [72, 90],
    ]);
    const cello = parts[3]?.notes;
    expect(cello?.map(({ tick, endTick, velocity }) => [tick, endTick, velocity])).toEqual([[0, 1920, 60]]);
  });

  it('lets the tune lie in a named part, an octave away where it must', () => {
    const notes = struck(symbols('| C | F | G | C |'));
    const horn = part('Horn', instruments.horn, { register: span(50, 65) });
    const { parts } = voice(notes, [...strings.slice(0, 4), horn], {
      position: 'open',
      tune: { part: 'Horn' },
    });
    const own = parts.find(({ name }) => name === 'Horn')?.notes.map(({ pitch }) => pitch);
    expect(own).toEqual(symbols('| C | F | G | C |').map(({ tones }) => tones.at(-1)?.pitch));
    const flute = part('Piccolo', instruments.piccolo);
    const high = voice(notes, [...strings.slice(1, 4), flute], {
      position: 'open',
      tune: { part: 'Piccolo' },
    });
    expect(high.remarks.map(({ code, message }) => [code, message])).toEqual([
      ['tune-moved', 'the tune lies an octave higher than in the sketch'],
    ]);
  });

  it('divides by players as the chords need it', () => {
    const notes = struck(symbols('| Em7♭5 | A7♭9 | Dm |'));
    const parts = [
      part('Violins', instruments.violin, { players: 8, divisi: 'as needed' }),
      part('Violas', instruments.viola, { players: 3, divisi: 'as needed' }),
      part('Cellos', instruments.cello, { players: 4 }),
    ];
    const { voices } = voice(notes, parts, { position: 'open', tune: 'none' });
    // Five tones in A7♭9: violins 8, then 4, then 2.7 players a voice; violas are too few to divide.
    expect(voices).toEqual(['Cellos', 'Violas', 'Violins', 'Violins', 'Violins']);
    const fixed = [part('Violins', instruments.violin, { players: 2, divisi: 4 }), ...parts.slice(1)];
    expect(voice(notes, fixed, { position: 'close' }).voices).toHaveLength(4);
  });

  it('lets further parts double, within their ranges', () => {
    const notes = struck(symbols('| Dm | Gm/B♭ | C7 | Fmaj7 |'));
    const more = [
      part('Flute', instruments.flute),
      part('Horn', instruments.horn),
      part('Bassoon', instruments.bassoon),
    ];
    const { layouts, voices, remarks, parts } = voice(notes, [...strings, ...more], {
      position: 'open',
      tune: 'none',
    });
    expect(voices).toHaveLength(8);
    expect(remarks).toEqual([]);
    for (const { pitches } of layouts)
      expect(pitches).toEqual([...pitches].sort((a, b) => Number(a) - Number(b)));
    expect(remarked({ parts })).toEqual([]);
  });

  it('lies open or close as it was asked to (J. Rushton, "Spacing", New Grove)', () => {
    const notes = struck(symbols('| Dm | Gm/B♭ | C7 | Fmaj7 | B♭ | Gm7 | A7 | Dm |'));
    for (const position of ['open', 'close'] as const) {
      const { parts } = voice(notes, strings, { position, tune: 'none' });
      expect(new Set(voicingsOf({ parts }).map(({ kind }) => kind))).toEqual(new Set([position]));
    }
  });

  it('lets parts cross where it was asked to, and never costs more for it', () => {
    const notes = struck(symbols('| Dm | G7 | C | Am |'));
    const parts = [part('Oboe', span(58, 74)), part('Clarinet', span(55, 72)), part('Bassoon', span(40, 60))];
    const plain = voice(notes, parts, { position: 'close', tune: 'none' });
    const crossing = voice(notes, parts, { position: 'close', tune: 'none', crossing: true });
    expect(crossing.cost).toBeLessThanOrEqual(plain.cost);
    expect(crossing.parts.map(({ notes: own }) => own.length)).toEqual([4, 4, 4]);
  });

  it('lays out what has too many layouts to compare them all, and says so', () => {
    const cluster = Array.from({ length: 12 }, (_, index) => {
      return { tick: 0, endTick: 1920, pitch: 48 + index, velocity: 80, part: 0 };
    });
    const wide = strings.map(({ name }) => part(name, span(24, 108), { register: span(24, 108) }));
    const { remarks, parts } = voice(cluster, wide, { position: 'open', tune: 'none' });
    expect(remarks.map(({ code }) => code)).toContain('many-layouts');
    expect(parts.every(({ notes }) => notes.length === 1)).toBe(true);
  });

  it('tells what is wrong with the parts, all at once', () => {
    const notes = struck(symbols('| C |'));
    const twice = [part('Horn', span(50, 40)), part('Horn', span(40, 60))];
    const { remarks, parts } = voice(notes, twice, { position: 'open', tune: { part: 'Tuba' } });
    expect(parts).toEqual([]);
    expect(remarks.map(({ code }) => code)).toEqual(['part-range', 'same-part', 'unknown-part']);
    expect(voice(notes, [], { position: 'open' }).remarks.map(({ code }) => code)).toEqual(['no-parts']);
    expect(voice([], strings, { position: 'open' }).remarks.map(({ code }) => code)).toEqual(['no-chords']);
  });

  it('says where no layout is good', () => {
    const low = [part('Tuba', span(36, 36)), part('Bassoon', span(40, 40))];
    const { remarks, layouts } = voice(struck(symbols('| C |')), low, { position: 'close', tune: 'none' });
    expect(remarks[0]?.place).toEqual({ kind: 'music', tick: 0 });
    expect(remarks.map(({ code }) => code)).toEqual(['cramped']);
    expect(layouts[0]?.pitches).toEqual(
      [...(layouts[0]?.pitches ?? [])].sort((a, b) => Number(a) - Number(b)),
    );
  });

  const kinds = ['', 'm', '7', 'm7', 'maj7', 'm7♭5', 'sus4', '7♭9', '6'];
  const roots = ['C', 'D', 'E♭', 'F', 'F♯', 'G', 'A', 'B♭'];
  const texts = fc
    .array(fc.tuple(fc.constantFrom(...roots), fc.constantFrom(...kinds)), { minLength: 1, maxLength: 6 })
    .map((list) => list.map(([root, kind]) => `${root}${kind}`).join(' '));
  const someParts = fc
    .subarray([...strings, part('Horn', instruments.horn), part('Clarinet', instruments.clarinet)], {
      minLength: 2,
    })
    .chain((parts) => fc.shuffledSubarray(parts, { minLength: parts.length }));
  const settings = fc.record({
    position: fc.constantFrom('open' as const, 'close' as const),
    tune: fc.constantFrom('top' as const, 'none' as const),
  });

  it('has the same strokes, only notes of the chords, every part in range, no crossing, and is the same each time', () => {
    fc.assert(
      fc.property(
        texts,
        someParts,
        settings,
        fc.integer({ min: 1, max: 3 }),
        (text, parts, options, strokes) => {
          const notes = struck(symbols(text), strokes);
          const voiced = voice(notes, parts, options);
          expect(voice(notes, parts, options)).toEqual(voiced);
          const slices = slicesOf(notes, steady);
          const strokesOf = (list: readonly { tick: number; velocity: number }[]) =>
            [...new Set(list.map(({ tick, velocity }) => `${tick} ${velocity}`))].sort();
          expect(strokesOf(voiced.parts.flatMap((one) => one.notes))).toEqual(strokesOf(notes));
          for (const [index, { notes: own, name }] of voiced.parts.entries()) {
            expect(name).toBe(parts[index]?.name);
            for (const { tick, pitch } of own) {
              const slice = slices.findLast((one) => one.tick <= tick);
              expect(slice?.notes.some((note) => (note.pitch - pitch) % 12 === 0)).toBe(true);
              expect(pitch).toBeGreaterThanOrEqual(parts[index]?.range.low ?? 128);
              expect(pitch).toBeLessThanOrEqual(parts[index]?.range.high ?? -1);
            }
          }
          for (const { pitches } of voiced.layouts) {
            const sounding = pitches.filter((pitch) => pitch !== null);
            expect(sounding).toEqual([...sounding].sort((a, b) => a - b));
          }
        },
      ),
      { numRuns: draws(25) },
    );
  });

  it('tells where a part rests, since no tone of a chord is free for it', () => {
    const high = [part('Flute', { low: 72, high: 96 }), part('Bell', { low: 61, high: 61 })];
    const { remarks, parts } = voice(struck(symbols('| C |')), high, { position: 'close', tune: 'none' });
    expect(remarks.map(({ code, message }) => [code, message])).toContainEqual([
      'part-rests',
      '"Bell" rests where no tone of the chord is free for it: outside its range, or one too many',
    ]);
    expect(parts[1]?.notes).toEqual([]);
  });

  it('has nothing that inspect remarks upon, or says that it has', () => {
    fc.assert(
      fc.property(texts, someParts, settings, (text, parts, options) => {
        const voiced = voice(struck(symbols(text)), parts, options);
        fc.pre(!voiced.remarks.some(({ code }) => code === 'cramped'));
        expect(remarked(voiced)).toEqual([]);
      }),
      { numRuns: draws(25) },
    );
  });
});
