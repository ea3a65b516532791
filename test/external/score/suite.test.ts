// Scores against the public test suite and schema. Fetch github.com/cuthbertLab/musicxmlTestSuite (MIT) and
// github.com/w3c/musicxml, and name their folders in KEYSLIP_MUSICXML_SUITE and KEYSLIP_MUSICXML_SCHEMA.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/index.js';
import { names, playScore, writePerformance } from '../../../src/score/index.js';
import { makeOutsideReader, marksOf, soundOf } from '../../score/outside-reader.js';

const suite = process.env.KEYSLIP_MUSICXML_SUITE;
const schema = process.env.KEYSLIP_MUSICXML_SCHEMA;

for (const [name, folder] of Object.entries({
  KEYSLIP_MUSICXML_SUITE: suite,
  KEYSLIP_MUSICXML_SCHEMA: schema,
}))
  if (!folder) console.warn(`not checked: ${name} does not name a folder`);

/** Not well-formed: an element is closed twice. */
const broken = ['32ad-Notations5.musicxml'];

/** Where the outside reader understands another rhythm or pitch, and why. */
const otherwise: Readonly<Record<string, string>> = {
  '01f-Pitches-ParenthesizedMicrotoneAccidentals.xml': 'microtones are rounded otherwise',
  '01g-Pitches-AllArrowAccidentals.musicxml': 'an arrow is a quarter tone there, and less in this file',
  '13a-KeySignatures.xml': 'no note says how it is inflected: here the key signatures do',
  '13aa-KeySignatures-Extreme.xml': 'the same',
  '13ab-KeySignatures-Cancel.xml': 'the same',
  '13ac-KeySignatures-Octaves.xml': 'the same',
  '23c-Tuplet-Display-NonStandard.xml': 'it reads printed lengths, not durations',
  '23f-Tuplets-DurationButNoBracket.xml': 'it reads printed lengths, not durations',
  '24d-AfterGrace.xml': 'the share of time that its grace notes take is lost there',
  '32a-Notations.xml': 'it takes printed accidentals, which contradict the pitches in this file',
  '32c-MultipleNotationChildren.xml':
    'it takes printed accidentals, which contradict the pitches in this file',
  '33a-Spanners.xml': 'its tremolo between two notes lacks a time-modification, and is half as long there',
  '33e-Spanners-OctaveShifts-InvalidSize.xml': 'it reads printed lengths, not durations',
  '41c-StaffGroups.xml': 'unpitched notes lose their place',
  '43c-MultiStaff-DifferentKeysAfterBackup.xml': 'no note says how it is inflected',
  '71e-TabStaves.xml': 'frets and pitches of the file contradict each other',
  '72c-TransposingInstruments-Change.xml': 'a change of transposition in the middle is lost',
  '73a-Percussion.xml': 'unpitched notes lose their keys',
  '74a-FiguredBass.xml': 'it reads printed lengths, not durations',
};

/** Where the outside reader has other marks, and why. */
const markedOtherwise: Readonly<Record<string, string>> = {
  '21d-Chords-SchubertStabatMater.xml': 'offsets that move only what is printed move the sound there',
  '21f-Chord-ElementInBetween.xml': 'a direction among the notes of a chord stands at the chord there',
  '21g-Chords-Tremolos.musicxml': 'tremolos at other notes than the first of a chord are lost',
  '31a-Directions.xml': 'offsets that move only what is printed move the sound there',
  '32a-Notations.xml': 'stress and unstress are lost',
  '32aa-Notations2_Ornaments.xml': 'shake is lost, schleifer a mordent, a wavy line by itself a trill',
  '32ab-Notations3.xml': 'fret, string, hammer-on, pull-off and tap are lost, open-string is open',
  '32ae-Notations6.musicxml': 'holes are lost',
  '32c-MultipleNotationChildren.xml': 'an accent is lost',
  '33a-Spanners.xml': 'hammer-on and pull-off are lost, a wavy line by itself is a trill',
  '33f-Trill-EndingOnGraceNote.xml': 'a wavy line is not told from its trill',
  '43e-Multistaff-ClefDynamics.xml': 'offsets that move only what is printed move the sound there',
  '71e-TabStaves.xml': 'fret and string are lost',
  '99c-Wavy-Lines-No-Numbers.xml': 'a wavy line by itself is a trill',
};

/** Where it plays bars in another order, by its expansions, and why. */
const orderedOtherwise: Readonly<Record<string, string>> = {
  '45c-RepeatMultipleTimes.xml':
    'a repeat around a repeat, as the suite has it, begins after the first sign there',
  '45e-Repeats-Nested-Alternatives.xml':
    'endings within a repeat within an ending are played one more time there',
  '45f-Repeats-InvalidEndings.xml': 'endings contradict each other',
};

describe.runIf(suite)('the test suite of MusicXML', () => {
  const folder = join(suite ?? '', 'xmlFiles');
  const files = suite ? readdirSync(folder).filter((name) => /\.(?:xml|musicxml|mxl)$/u.test(name)) : [];
  const read = (name: string) => new Uint8Array(readFileSync(join(folder, name)));

  it('is read whole: every file but the broken ones becomes a MIDI file without a remark', () => {
    expect(files.length).toBeGreaterThan(140);
    const unread = files.filter((name) => {
      const { performance } = playScore(read(name), name);
      if (performance)
        expect([
          name,
          readMidi(writePerformance(performance).value ?? new Uint8Array(), name).diagnostics,
        ]).toEqual([name, []]);
      return !performance;
    });
    expect(unread).toEqual(broken);
  });

  it('has the pitches and onsets that an outside reader finds', async () => {
    const meiOf = await makeOutsideReader();
    const differing = files.filter((name) => {
      if (name.endsWith('.mxl') || broken.includes(name)) return false;
      const mine = playScore(read(name), name, { repeats: false }).performance;
      const mei = meiOf(new TextDecoder().decode(read(name)));
      const theirs = mei && playScore(new TextEncoder().encode(mei), name, { repeats: false }).performance;
      if (!mine || soundOf(mine).length === 0) return false;
      return !theirs || soundOf(theirs).join() !== soundOf(mine).join();
    });
    expect(differing).toEqual(Object.keys(otherwise));
  });

  it('has the marks and the order of bars that an outside reader finds', async () => {
    const meiOf = await makeOutsideReader();
    const [marks, order]: [string[], string[]] = [[], []];
    for (const name of files) {
      if (name.endsWith('.mxl') || broken.includes(name)) continue;
      const mei = meiOf(new TextDecoder().decode(read(name))) ?? '';
      const play = (bytes: Uint8Array) => playScore(bytes, name).performance;
      const [mine, theirs] = [play(read(name)), play(new TextEncoder().encode(mei))];
      if (!mine || !theirs) continue;
      const places = ({ bars }: typeof mine) => bars.map(({ measure }) => measure).join();
      if (places(mine) !== places(theirs)) order.push(name);
      else if ([...new Set(marksOf(mine))].join() !== [...new Set(marksOf(theirs))].join()) marks.push(name);
    }
    expect(marks).toEqual(Object.keys(markedOtherwise));
    expect(order).toEqual(Object.keys(orderedOtherwise));
  });
});

describe.runIf(schema)('the schema of MusicXML 4.0', () => {
  const text = schema ? readFileSync(join(schema, 'schema', 'musicxml.xsd'), 'utf8') : '';

  it.each(['articulations', 'technical', 'ornaments', 'dynamics'])(
    '%s has the elements that are known here',
    (type) => {
      const start = text.indexOf(`<xs:complexType name="${type}">`);
      const body = text.slice(start, text.indexOf('</xs:complexType>', start));
      const elements = [...body.matchAll(/<xs:element name="([\w-]+)"/gu)].map(([, name]) => name ?? '');
      const known: readonly string[] =
        type === 'dynamics'
          ? dynamics
          : [...names[type as 'articulations'], ...(type === 'ornaments' ? ['accidental-mark'] : [])];
      expect(new Set(elements)).toEqual(new Set(known));
    },
  );
});

const dynamics = [
  ...['p', 'pp', 'ppp', 'pppp', 'ppppp', 'pppppp', 'f', 'ff', 'fff', 'ffff', 'fffff', 'ffffff', 'mp', 'mf'],
  ...['sf', 'sfp', 'sfpp', 'fp', 'rf', 'rfz', 'sfz', 'sffz', 'fz', 'n', 'pf', 'sfzp', 'other-dynamics'],
];
