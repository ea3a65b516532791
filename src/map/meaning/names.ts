import type { ArticulationId, Meaning } from './types.js';

const core = (subclass: number) => of(0x10, subclass);
const short = (subclass: number) => of(0x11, subclass);
const repeat = (subclass: number) => of(0x12, subclass);
const trill = (subclass: number) => of(0x13, subclass);
const color = (subclass: number) => of(0x14, subclass);
const gesture = (subclass: number) => of(0x15, subclass);
const noise = (subclass: number) => of(0x17, subclass);

function of(type: number, subclass: number): Meaning {
  const articulation: ArticulationId = { type, subclass, variation: 0 };
  return { articulation };
}

/** Types of mute, M2-123 table 19. */
const mute = { none: 0, standard: 1, harmonStemIn: 4, stopped: 14, hand: 13 } as const;

/** Half-way between as usual and at the nut: over the fingerboard. The standard gives no figure; own choice. */
const overTheFingerboard = 0xc0000000;
/** M2-123, 8.2: sul ponticello lies at 0 to 0x10000000; this is its middle. */
const nearTheBridge = 0x08000000;

/**
 * What the element names of MusicXML 4.0 (`articulations`, `technical`, `ornaments`) mean. null: a name without a class
 * there, since it is no way to sound a note (a finger, a hole), only a loudness (an accent), a pause, or a figure of
 * several notes. Which subclass fits a name was read off the standard's own notes where it has one ("Double-Tongue" at
 * two repeats, "Hammer Ons" at grace notes from below); the rest is common practice, no source.
 */
const elements: Readonly<Record<string, Meaning | null>> = {
  // articulations
  accent: null,
  'strong-accent': core(6),
  staccato: short(0),
  tenuto: core(0),
  'detached-legato': short(9),
  staccatissimo: short(4),
  spiccato: short(5),
  scoop: gesture(3),
  plop: gesture(1),
  doit: gesture(2),
  falloff: gesture(0),
  'breath-mark': null,
  caesura: null,
  stress: null,
  unstress: null,
  'soft-accent': null,
  'other-articulation': null,
  // technical
  'up-bow': { direction: 'up' },
  'down-bow': { direction: 'down' },
  harmonic: color(0),
  'open-string': null,
  'thumb-position': null,
  fingering: null,
  pluck: null,
  'double-tongue': repeat(4),
  'triple-tongue': repeat(5),
  stopped: { mute: mute.stopped },
  'snap-pizzicato': short(11),
  fret: null,
  string: null,
  'hammer-on': gesture(6),
  'pull-off': gesture(7),
  bend: null,
  tap: short(14),
  heel: null,
  toe: null,
  fingernails: short(11),
  hole: null,
  arrow: null,
  handbell: null,
  'brass-bend': gesture(4),
  flip: null,
  smear: gesture(3),
  open: { mute: mute.none },
  'half-muted': { mute: mute.hand, muteAmount: 0.5 },
  'harmon-mute': { mute: mute.harmonStemIn },
  golpe: noise(14),
  'other-technical': null,
  // ornaments
  'trill-mark': trill(0),
  turn: null,
  'delayed-turn': null,
  'inverted-turn': null,
  'delayed-inverted-turn': null,
  'vertical-turn': null,
  'inverted-vertical-turn': null,
  shake: gesture(8),
  'wavy-line': trill(0),
  mordent: null,
  'inverted-mordent': null,
  schleifer: gesture(6),
  tremolo: repeat(0),
  haydn: null,
  'other-ornament': null,
  'accidental-mark': null,
};

/**
 * Playing words of the trade (common practice, no source). `arco` is the bow as usual; `col legno` by itself is the
 * struck kind.
 */
const words: Readonly<Record<string, Meaning | null>> = {
  arco: core(0),
  'pizz.': short(10),
  'con sord.': { mute: mute.standard },
  'senza sord.': { mute: mute.none },
  'trem.': repeat(0),
  'col legno': short(12),
  'sul pont.': { position: nearTheBridge },
  'sul tasto': { position: overTheFingerboard },
  'marc.': core(6),
  'ten.': core(0),
  'stacc.': short(0),
  legato: core(2),
};

/** Every name that has a meaning, or is known to have none, in the order of its table. */
export const meaningsByName: ReadonlyMap<string, Meaning | null> = new Map([
  ...Object.entries(elements),
  ...Object.entries(words),
]);
