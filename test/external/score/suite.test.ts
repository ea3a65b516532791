// Scores against the public test suite and schema. Fetch github.com/cuthbertLab/musicxmlTestSuite (MIT) and
// github.com/w3c/musicxml, and name their folders in KEYSLIP_MUSICXML_SUITE and KEYSLIP_MUSICXML_SCHEMA.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readMidi } from '../../../src/midi/index.js';
import { names, playScore, writePerformance } from '../../../src/score/index.js';
import { makeOutsideReader, soundOf } from '../../score/outside-reader.js';

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
  '01d-Pitches-Microtones.xml': 'microtones are rounded otherwise',
  '01f-Pitches-ParenthesizedMicrotoneAccidentals.xml': 'microtones are rounded otherwise',
  '02e-Rests-NoType.xml': 'it reads printed lengths, not durations',
  '23c-Tuplet-Display-NonStandard.xml': 'it reads printed lengths, not durations',
  '23f-Tuplets-DurationButNoBracket.xml': 'it reads printed lengths, not durations',
  '24d-AfterGrace.xml': 'the share of time that its grace notes take is lost there',
  '32a-Notations.xml': 'it takes printed accidentals, which contradict the pitches in this file',
  '32c-MultipleNotationChildren.xml':
    'it takes printed accidentals, which contradict the pitches in this file',
  '33a-Spanners.xml': 'its tremolo between two notes lacks a time-modification, and is half as long there',
  '33e-Spanners-OctaveShifts-InvalidSize.xml': 'it reads printed lengths, not durations',
  '41c-StaffGroups.xml': 'unpitched notes lose their place',
  '71e-TabStaves.xml': 'notes of tablature lose their pitch',
  '72c-TransposingInstruments-Change.xml': 'a change of transposition in the middle is lost',
  '73a-Percussion.xml': 'unpitched notes lose their keys',
  '74a-FiguredBass.xml': 'it reads printed lengths, not durations',
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
