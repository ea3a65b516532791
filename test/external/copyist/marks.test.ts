import { VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import { beforeAll, describe, expect, it } from 'vitest';
import { markElements, writeMusicXml } from '../../../src/sheet/copyist/index.js';
import { lineOf, scoreOf, staffOf } from '../../sheet/notate/scores.js';

/** What MEI 5.0 calls the marks of MusicXML: its `artic` values (data.ARTICULATION), or an element at the note. */
const inMei: Readonly<Record<string, string>> = {
  accent: 'acc',
  'strong-accent': 'marc',
  staccato: 'stacc',
  tenuto: 'ten',
  'detached-legato': 'stacc ten',
  staccatissimo: 'stacciss',
  spiccato: 'spicc',
  scoop: 'scoop',
  plop: 'plop',
  doit: 'doit',
  falloff: 'fall',
  'breath-mark': '<breath>',
  caesura: '<caesura>',
  'soft-accent': 'acc-soft',
  'up-bow': 'upbow',
  'down-bow': 'dnbow',
  harmonic: 'harm',
  'open-string': 'open',
  'double-tongue': 'dbltongue',
  'triple-tongue': 'trpltongue',
  stopped: 'stop',
  'snap-pizzicato': 'snap',
  heel: 'heel',
  toe: 'toe',
  fingernails: 'fingernail',
  'trill-mark': '<trill>',
  turn: '<turn>',
  'delayed-turn': '<turn>',
  'inverted-turn': '<turn>',
  'delayed-inverted-turn': '<turn>',
  'vertical-turn': '<turn>',
  'inverted-vertical-turn': '<turn>',
  mordent: '<mordent>',
  'inverted-mordent': '<mordent>',
  schleifer: '<mordent>',
  haydn: '<mordent>',
  tremolo: '<bTrem>',
};

/** What Verovio 6.3 reads no name of; the schema is their only judge. */
const unread = [
  ...['stress', 'unstress', 'thumb-position', 'brass-bend', 'flip', 'smear', 'open', 'half-muted', 'golpe'],
  ...['harmon-mute', 'shake'],
];

/** Long on a busy machine. Unit: ms. */
const patience = 120_000;

let toolkit: VerovioToolkit;
beforeAll(async () => {
  toolkit = new VerovioToolkit(await createVerovioModule());
}, patience);

/** The marks that Verovio has at the second note, after it read MusicXML. */
function readAtSecond(mark: string): string {
  const score = scoreOf([staffOf(lineOf([1, 1, 1, 1], [67, 69, 71]))]);
  const { bytes } = writeMusicXml(score, { playing: new Map([['n1', { marks: [mark] }]]) });
  toolkit.loadData(new TextDecoder().decode(bytes));
  const mei = toolkit.getMEI();
  const note = /<note [^>]*xml:id="n1"[\s\S]*?<\/note>/u.exec(mei)?.[0] ?? '';
  const own = [...note.slice(0, note.indexOf('</note>')).matchAll(/ artic="([^"]*)"/gu)].map(
    ([, artic]) => artic,
  );
  const at = [...mei.matchAll(/<(\w+) [^>]*startid="#n1"/gu)].map(([, name]) => `<${name}>`);
  const around = mei.includes('<bTrem') ? ['<bTrem>'] : [];
  // Breaths stand behind a note, by time: just before the third beat.
  const behind = [...mei.matchAll(/<(breath|caesura) [^>]*tstamp="2\.9/gu)].map(([, name]) => `<${name}>`);
  return [...own, ...at, ...around, ...behind].sort().join(' ');
}

describe('marks that Verovio reads from MusicXML', () => {
  it('are all that there are', () => {
    expect([...Object.keys(inMei), ...unread].sort()).toEqual([...markElements.keys()].sort());
  });

  it.each(Object.entries(inMei))('%s', (mark, expected) => {
    expect(readAtSecond(mark)).toBe(expected);
  });

  it('finds none where there is none', () => {
    expect(readAtSecond('arco')).toBe('');
  });
});
