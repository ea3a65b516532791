import fc from 'fast-check';
import { ElementType, parseDocument } from 'htmlparser2';
import { beforeAll, describe, expect, it } from 'vitest';
import { meaningsByName, readMeaning } from '../../../src/map/meaning/index.js';
import { markElements, type NotePlaying, writeMusicXml } from '../../../src/sheet/copyist/index.js';
import { notate, type ScoreToNotate } from '../../../src/sheet/notate/index.js';
import { draws } from '../../support/draws.js';
import { type ReadBack, startEngraver } from '../notate/engraver.js';
import { randomScore } from '../notate/random.js';
import { clockWith, lineOf, notesOf, scoreOf, staffOf } from '../notate/scores.js';

let engrave: (xml: string) => ReadBack;
beforeAll(async () => {
  engrave = await startEngraver();
});

const text = (...args: Parameters<typeof writeMusicXml>) =>
  new TextDecoder().decode(writeMusicXml(...args).bytes);
type Element = ReturnType<typeof parseDocument>['children'][number] & { type: ElementType.ElementType.Tag };
const isTag = (node: { type: string }): node is Element => node.type === ElementType.Tag;

/** All elements of a name, in order of the text. */
function named(xml: string, name: string): Element[] {
  const found: Element[] = [];
  const walk = (nodes: readonly { type: string }[]) => {
    for (const node of nodes)
      if (isTag(node)) {
        if (node.name === name) found.push(node);
        walk(node.children);
      }
  };
  walk(parseDocument(xml, { xmlMode: true }).children);
  return found;
}
const children = (node: Element | undefined) => (node?.children ?? []).filter(isTag);
const child = (node: Element | undefined, name: string) => children(node).find((one) => one.name === name);
const content = (node: Element | undefined): string =>
  (node?.children ?? []).map((one) => ('data' in one ? one.data : isTag(one) ? content(one) : '')).join('');

/** Quarters at which each note begins, by id, from durations alone: what a reader of MusicXML counts. */
function onsetsOf(xml: string): ReadonlyMap<string, number> {
  const onsets = new Map<string, number>();
  for (const part of named(xml, 'part')) {
    let bar = 0;
    for (const measure of children(part)) bar = readMeasure(measure, bar, onsets);
  }
  return onsets;
}

/** @returns where the measure ends, in divisions */
function readMeasure(measure: Element, start: number, onsets: Map<string, number>): number {
  let [at, end, last] = [start, start, start];
  for (const one of children(measure)) {
    const duration = Number(content(child(one, 'duration')) || 0);
    const isChord = child(one, 'chord') !== undefined;
    if (one.name === 'note') onsets.set(one.attribs.id ?? '', (isChord ? last : at) / 768);
    if (isChord) continue;
    last = at;
    at += one.name === 'backup' ? -duration : duration;
    end = Math.max(end, at);
  }
  return end;
}

/** Below C0 notes are written an octave higher, which is told. */
const heard = (pitch: number) => (pitch < 12 ? pitch + 12 : pitch);

/** Whether a chord has two heads of one pitch that are tied on. */
function hasTiedUnison(xml: string): boolean {
  const inChord = new Set<string>();
  return named(xml, 'note').some((note) => {
    if (child(note, 'chord') === undefined) inChord.clear();
    const isTied = children(note).some(({ name, attribs }) => name === 'tie' && attribs.type === 'start');
    const pitch = content(child(note, 'pitch'));
    const isTwin = isTied && inChord.has(pitch);
    if (isTied) inChord.add(pitch);
    return isTwin;
  });
}

describe('read by Verovio', () => {
  it('any music has every note at its pitch and place, as the sheet has it', () => {
    fc.assert(
      fc.property(randomScore, (score) => {
        const pitched: ScoreToNotate = {
          ...score,
          staves: score.staves.map(({ percussion: _, ...staff }) => staff),
        };
        const xml = text(pitched);
        expect(text(pitched)).toBe(xml);
        const read = engrave(xml);
        expect(read.log).not.toMatch(/not read|\[Error\]/u);
        const notes = pitched.staves.flatMap((staff) => staff.notes);
        const sounding = notes.map(({ pitch }) => heard(pitch)).sort((a, b) => a - b);
        // The reader finds the ends of ties by pitch: of two equal heads in one chord it ties only one.
        if (hasTiedUnison(xml)) expect(new Set(read.played)).toEqual(new Set(sounding));
        else expect(read.played).toEqual(sounding);
        const low = notes.filter(({ pitch }) => pitch < 12);
        expect(writeMusicXml(pitched).diagnostics.length > 0).toBe(low.length > 0);
        // The reader holds one score at a time.
        for (const { id, pitch } of notes) expect(read.pitchOf(id)).toBe(heard(pitch));
        const own = engrave(notate(pitched).mei);
        const counted = onsetsOf(xml);
        for (const { id } of notes) {
          // Rolled chords sound one note after another in Verovio's time; their written places are counted.
          if (!xml.includes('<arpeggiate/>')) {
            expect(counted.get(id)).toBeCloseTo(own.onsets.get(id) ?? Number.NaN, 3);
            expect(read.onsets.get(id)).toBeCloseTo(own.onsets.get(id) ?? Number.NaN, 3);
          }
        }
      }),
      { numRuns: draws(15) },
    );
  });
});

const playing = (names: readonly (string | undefined)[], name = 'n'): ReadonlyMap<string, NotePlaying> =>
  new Map(
    names.flatMap((mark, index) => (mark === undefined ? [] : [[`${name}${index}`, { marks: [mark] }]])),
  );

describe('writeMusicXml', () => {
  it('writes each mark that has an element of its own at its note, and every other as words', () => {
    const names = [...meaningsByName.keys()];
    const score = scoreOf([
      staffOf(
        lineOf(
          names.map(() => 1),
          [67, 69],
        ),
      ),
    ]);
    const xml = text(score, { playing: playing(names) });
    const marked = new Map(
      named(xml, 'note').map((note) => {
        const lists = children(child(note, 'notations')).flatMap(children);
        return [note.attribs.id, lists.map((one) => one.name)];
      }),
    );
    const words = named(xml, 'words').map(content);
    const same = new Map([
      ['marc.', 'strong-accent'],
      ['ten.', 'tenuto'],
      ['stacc.', 'staccato'],
      ['trem.', 'tremolo'],
    ]);
    names.forEach((name, index) => {
      const written = same.get(name) ?? name;
      if (markElements.has(written)) expect(marked.get(`n${index}`)).toEqual([written]);
      else if (name !== 'legato' && name !== 'arco' && name !== 'senza sord.') expect(words).toContain(name);
    });
    expect(engrave(xml).log).not.toMatch(/not read|\[Error\]/u);
  });

  it('tells how to play where it changes, and takes it back', () => {
    const marks = [
      undefined,
      'pizz.',
      'pizz.',
      undefined,
      'con sord.',
      'con sord.',
      undefined,
      'sul pont.',
      undefined,
    ];
    const known = marks.map((mark) => mark ?? 'tenuto');
    const xml = text(
      scoreOf([
        staffOf(
          lineOf(
            marks.map(() => 1),
            [67],
          ),
        ),
      ]),
      { playing: playing(known) },
    );
    expect(named(xml, 'words').map(content)).toEqual([
      ...['pizz.', 'arco', 'con sord.', 'senza sord.', 'sul pont.', 'nat.'],
    ]);
  });

  it('writes what articulations mean, and leaves what is as usual without a sign', () => {
    const means = ['staccato', '11/B', 'spiccato', 'tenuto', 'marc.', 'stopped', 'tremolo', '11/3'];
    const known = means.map((name): [string, NotePlaying] => {
      const read = readMeaning(name);
      return [`n${means.indexOf(name)}`, read.kind === 'known' ? { meaning: read.meaning } : {}];
    });
    const xml = text(
      scoreOf([
        staffOf(
          lineOf(
            means.map(() => 1),
            [67],
          ),
        ),
      ]),
      { playing: new Map(known) },
    );
    const lists = named(xml, 'note').map((note) =>
      children(child(note, 'notations'))
        .flatMap(children)
        .map((one) => one.name),
    );
    expect(lists.slice(0, 8)).toEqual([
      ...[['staccato'], ['snap-pizzicato'], ['spiccato'], [], ['strong-accent'], ['stopped'], ['tremolo']],
      ['accent', 'staccato'],
    ]);
  });

  it('slurs joined notes, but not over rests and not one alone', () => {
    const legato = [true, true, true, false, true, false, true, true].map((one) =>
      one ? 'legato' : 'tenuto',
    );
    const score = scoreOf([staffOf(lineOf([1, 1, 1, 1, 1, 1, 1, 1], [60, 62, 64], 1))]);
    const slurs = named(text(score, { playing: playing(legato) }), 'note').map((note) =>
      children(child(note, 'notations'))
        .filter(({ name }) => name === 'slur')
        .map(({ attribs }) => attribs.type)
        .join(),
    );
    expect(slurs).toEqual(['start', '', 'stop', '', '', '', 'start', 'stop']);
    const apart = scoreOf([staffOf(lineOf([2, 2], [60, 62], 0.3))]);
    expect(named(text(apart, { playing: playing(['legato', 'legato']) }), 'slur')).toEqual([]);
  });

  it('writes clefs, keys, metres, tempos, chord names and the title', () => {
    const score = scoreOf(
      [
        staffOf([
          [0, 3, 60],
          [3, 2, 65],
        ]),
        staffOf([[0, 5, 40]], { label: 'Cellos & <Basses>' }),
      ],
      {
        clock: clockWith(
          [
            [0, 3, 4],
            [3, 2, 4],
          ],
          90,
        ),
        keys: [{ tick: 0, fifths: -3 }],
        chords: [
          { tick: 0, text: 'Cm7/E♭' },
          { tick: 720, text: 'F♯7♭9 (♭II)' },
          { tick: 1440, text: 'C quartal' },
        ],
      },
    );
    const xml = text(score, { title: 'A <Tune> & more' });
    expect(named(xml, 'work-title').map(content)).toEqual(['A <Tune> & more']);
    expect(named(xml, 'sign').map(content)).toEqual(['G', 'F']);
    expect(named(xml, 'fifths').map(content)).toEqual(['-3', '-3']);
    expect(named(xml, 'beats').map(content)).toEqual(['3', '2', '3', '2']);
    expect(named(xml, 'per-minute').map(content)).toEqual(['90']);
    expect(named(xml, 'part-name').map(content)).toEqual(['Part', 'Cellos & <Basses>']);
    const harmonies = named(xml, 'harmony');
    expect(harmonies.map((one) => content(child(one, 'kind')))).toEqual(['minor-seventh', 'other', 'other']);
    expect(harmonies.map((one) => child(one, 'kind')?.attribs.text)).toEqual(['m7', '7♭9', ' quartal']);
    expect(content(child(harmonies[0], 'bass'))).toBe('E-1');
    expect(content(child(harmonies[1], 'offset'))).toBe(String(1.5 * 768));
  });

  it('writes dynamics at their notes, before them', () => {
    const score = scoreOf([staffOf(lineOf([1, 1, 1], [60, 62, 64]))]);
    const xml = text(score, {
      dynamics: new Map([
        ['n0', 'mf'],
        ['n2', 'più f & <'],
      ]),
    });
    expect(named(xml, 'dynamics').map((one) => children(one).map(({ name }) => name))).toEqual([
      ['mf'],
      ['other-dynamics'],
    ]);
    expect(named(xml, 'other-dynamics').map(content)).toEqual(['più f & <']);
    expect(xml.indexOf('<mf/>')).toBeLessThan(xml.indexOf('id="n0"'));
    expect(xml.indexOf('<other-dynamics')).toBeGreaterThan(xml.indexOf('id="n1"'));
  });

  it('keeps percussion by its sounds', () => {
    const score = scoreOf([
      staffOf(
        [
          [0, 1, 38],
          [1, 1, 42],
        ],
        { label: 'Drums', percussion: true },
      ),
    ]);
    const xml = text(score);
    expect(named(xml, 'midi-unpitched').map(content)).toEqual(['39', '43']);
    expect(named(xml, 'instrument').map(({ attribs }) => attribs.id)).toEqual(['P1-I38', 'P1-I42']);
    expect(named(xml, 'sign').map(content)).toEqual(['percussion']);
  });

  it('writes beams and tuplets', () => {
    const score = scoreOf([
      { ...staffOf([]), notes: notesOf(lineOf([1 / 3, 1 / 3, 1 / 3, 0.75, 0.25, 0.5, 0.5], [60])) },
    ]);
    const xml = text(score);
    const notes = named(xml, 'note');
    const beams = notes.map((note) =>
      children(note)
        .filter(({ name }) => name === 'beam')
        .map(content)
        .join(' '),
    );
    expect(beams.slice(0, 7)).toEqual([
      'begin',
      'continue',
      'end',
      'begin',
      'end backward hook',
      'begin',
      'end',
    ]);
    expect(named(xml, 'tuplet').map(({ attribs }) => attribs.type)).toEqual(['start', 'stop']);
    expect(named(xml, 'actual-notes').map(content)).toEqual(['3', '3', '3']);
  });
});
