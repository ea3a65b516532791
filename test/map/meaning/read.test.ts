import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import {
  articulationClasses,
  articulationName,
  meaningsByName,
  printedName,
  readMeaning,
} from '../../../src/map/meaning/index.js';

/** Element names of MusicXML 4.0, musicxml.xsd (W3C): the choices of articulations, technical and ornaments. */
const musicxml =
  `accent strong-accent staccato tenuto detached-legato staccatissimo spiccato scoop plop doit falloff
  breath-mark caesura stress unstress soft-accent other-articulation
  up-bow down-bow harmonic open-string thumb-position fingering pluck double-tongue triple-tongue stopped snap-pizzicato
  fret string hammer-on pull-off bend tap heel toe fingernails hole arrow handbell brass-bend flip smear open half-muted
  harmon-mute golpe other-technical
  trill-mark turn delayed-turn inverted-turn delayed-inverted-turn vertical-turn inverted-vertical-turn shake wavy-line
  mordent inverted-mordent schleifer tremolo haydn other-ornament accidental-mark`.split(/\s+/u);
const words = [
  ...['arco', 'pizz.', 'con sord.', 'senza sord.', 'trem.', 'col legno', 'sul pont.', 'sul tasto'],
  ...['marc.', 'ten.', 'stacc.', 'legato'],
];

const idOf = (text: string) => {
  const read = readMeaning(text);
  return read.kind === 'known' && read.meaning.articulation
    ? articulationName(read.meaning.articulation)
    : read.kind;
};

describe('readMeaning', () => {
  it('knows every element of MusicXML and every playing word, and no other name', () => {
    expect(musicxml).toHaveLength(17 + 31 + 16);
    expect([...meaningsByName.keys()]).toEqual([...musicxml, ...words]);
  });

  // M2-123-UM 1.0, tables 8–15.
  it.each([
    ['pizz.', 'staccatos-and-shorts/pizzicato (11/A)'],
    ['snap-pizzicato', 'staccatos-and-shorts/bartok-pizzicato (11/B)'],
    ['spiccato', 'staccatos-and-shorts/spiccato (11/5)'],
    ['col legno', 'staccatos-and-shorts/col-legno-battuto (11/C)'],
    ['tremolo', 'same-note-trills-repeats/tremolo-flutter-tongue (12/0)'],
    ['double-tongue', 'same-note-trills-repeats/2-repeats (12/4)'],
    ['triple-tongue', 'same-note-trills-repeats/3-repeats (12/5)'],
    ['marc.', 'core-sounds-sustains-and-strikes/marcato (10/6)'],
    ['legato', 'core-sounds-sustains-and-strikes/legato-and-legato-slurred (10/2)'],
    ['harmonic', 'additional-colors-sustained/harmonics-natural (14/0)'],
    ['doit', 'pitch-and-dynamic-gestures/pitch-rise-end (15/2)'],
    ['golpe', 'effects-and-noises/tap (17/E)'],
  ])('%s is %s', (name, printed) => {
    expect(idOf(name)).toBe(printed);
  });

  it.each([
    ['staccatos-and-shorts/spiccato', '11/5'],
    ['11/5', '11/5'],
    ['staccatos-and-shorts/long', '11/8'],
    ['0x11/0x5', '11/5'],
    ['Staccatos and Shorts / Sautillé', '11/6'],
    ['core-sounds-sustains-and-strikes/detache', '10/5'],
    ['additional-colours/flautando', '14/3'],
    ['staccatos-and-shorts/spiccato/2', '11/5/2'],
    ['intervallic-trills/whole-step-classical', '13/2'],
  ])('reads %s as %s', (text, ids) => {
    expect(idOf(text)).toMatch(new RegExp(`\\(${ids}\\)$`, 'u'));
  });

  it.each(['accent', 'fingering', 'turn', 'caesura'])('knows that %s has no class', (name) => {
    expect(readMeaning(name)).toEqual({ kind: 'none' });
  });

  it.each([
    '',
    'spicato',
    '18/0',
    '10/B',
    '11/5/10/2',
    'staccatos-and-shorts',
    'staccatos-and-shorts/normal',
  ])('does not know %j', (text) => expect(readMeaning(text).kind).toBe('unknown'));

  it('finds every subclass by its printed name and by its ids', () => {
    for (const { type, title, subclasses } of articulationClasses)
      subclasses.forEach((name, subclass) => {
        const meaning = { articulation: { type, subclass, variation: 0 } };
        expect(readMeaning(`${printedName(title)}/${printedName(name)}`)).toEqual({ kind: 'known', meaning });
        expect(readMeaning(`${type.toString(16)}/${subclass.toString(16)}`)).toEqual({
          kind: 'known',
          meaning,
        });
      });
  });

  it('reads all that the maps of this project mean', () => {
    const unknown: string[] = [];
    for (const file of readdirSync('maps', { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.yaml'),
    )) {
      const map = parse(readFileSync(join('maps', file), 'utf8')) as {
        articulations?: Record<string, { means?: string[] }>;
      };
      for (const { means = [] } of Object.values(map.articulations ?? {}))
        unknown.push(...means.filter((name) => readMeaning(name).kind === 'unknown'));
    }
    expect(unknown).toEqual([]);
  });
});
