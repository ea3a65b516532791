import type { InstrumentName } from './ranges.js';

/** What instruments are in a comparison of strengths. */
export const instrumentKinds = ['trumpet', 'trombone', 'tuba', 'horn', 'woodwind', 'strings'] as const;

export type InstrumentKind = (typeof instrumentKinds)[number];

/** What a word in a part's name tells. */
interface Meaning {
  readonly words: RegExp;
  /** Its name in the table of ranges; absent where it has no range here. */
  readonly name?: InstrumentName;
  /** Absent where it has no strength among the sections of an orchestra. */
  readonly kind?: InstrumentKind;
  /** Its note numbers stand for no pitches. */
  readonly isUnpitched?: true;
}

/**
 * Words of track names, English, Italian, German and French (common practice, no source); the first that fits. What
 * carries the name of another instrument within its own comes before it.
 */
const vocabulary: readonly Meaning[] = [
  {
    words:
      /\b(drum(s|kits?)?|perc(ussion)?|cymbals?|snares?|toms?|taikos?|tam-?tams?|tambourines?|hi-?hats?|gran cassa|batterie|schlagzeug|schlagwerk|batteria|becken|piatti)\b/u,
    isUnpitched: true,
  },
  { words: /sax|guitar|drum|gamba/u },
  { words: /recorder|blockfl|pan ?fl|basset ?horn|bass (flute|oboe)|contrabass clarinet/u, kind: 'woodwind' },
  { words: /fl[üu]gelhorn|tenor horn|wagner/u, kind: 'horn' },
  { words: /bass trumpet|piccolo trumpet|cornet/u, kind: 'trumpet' },
  { words: /contrabass trombone/u, kind: 'trombone' },
  { words: /(tenor|contrabass) tuba/u, kind: 'tuba' },
  { words: /english horn|cor anglais|corno inglese|englischhorn/u, name: 'English horn', kind: 'woodwind' },
  { words: /piccolo|ottavino|petite fl[ûu]te/u, name: 'piccolo', kind: 'woodwind' },
  {
    words: /alto flute|altfl[öo]te|flauto (contr)?alto|fl[ûu]te (alto|en sol)/u,
    name: 'alto flute',
    kind: 'woodwind',
  },
  { words: /fl[uû]te|fl[öo]te|flaut/u, name: 'flute', kind: 'woodwind' },
  { words: /oboe|oboi\b|hautbois/u, name: 'oboe', kind: 'woodwind' },
  {
    words: /bass clarinet|clarinett[oi] bass[oi]|bassklarinette|clarinette basse/u,
    name: 'bass clarinet',
    kind: 'woodwind',
  },
  { words: /clarinet|klarinette/u, name: 'clarinet', kind: 'woodwind' },
  {
    words: /contrabassoon|double bassoon|contr[ao]fagott|kontrafagott|contrebasson/u,
    name: 'contrabassoon',
    kind: 'woodwind',
  },
  { words: /bassoon|fagott|basson/u, name: 'bassoon', kind: 'woodwind' },
  { words: /woodwind|holzbl/u, kind: 'woodwind' },
  {
    words: /bass trombone|trombon[ei] bass[oi]|bassposaune|trombone basse/u,
    name: 'bass trombone',
    kind: 'trombone',
  },
  { words: /trombon|posaune/u, name: 'trombone', kind: 'trombone' },
  { words: /trumpet|trompete|trompette|\btromb[ae]\b/u, name: 'trumpet', kind: 'trumpet' },
  { words: /\btub[ae]\b|\btub(a|e)s\b|basstuba/u, name: 'tuba', kind: 'tuba' },
  { words: /\bhorns?\b|\bh[öo]rner\b|\bcorn[oi]\b|\bcors?\b/u, name: 'horn', kind: 'horn' },
  { words: /timpan|pauken|timbales/u, name: 'timpani' },
  { words: /\bharp(e|es|s)?\b|\barp[ae]\b|harfe/u, name: 'harp' },
  { words: /soprano|soprani|sopran\b/u, name: 'soprano' },
  {
    words: /contralto|(choir|chorus|chor|voices?) alt|\balt[oi]?s? (choir|voices?)|\bcontralti/u,
    name: 'alto',
  },
  { words: /\btenor[ei]?s?\b|\btenöre\b|ténors?\b/u, name: 'tenor' },
  { words: /bar[iy]ton/u, name: 'baritone' },
  { words: /(choir|chorus|chor|voices?) b[aä]ss|\bbass(es)? (choir|voices?)/u, name: 'bass' },
  {
    words: /double bass|string bass|contrabb?ass|kontrab[aä]|contrebasse|\bbasses\b|\bbassi\b|\bbässe\b/u,
    name: 'double bass',
    kind: 'strings',
  },
  { words: /cell[oi]s?\b|violoncell/u, name: 'cello', kind: 'strings' },
  { words: /violin|\bviolons?\b|geige/u, name: 'violin', kind: 'strings' },
  { words: /\bviol[ae]\b|\bviolas\b|bratsche|\baltos?\b/u, name: 'viola', kind: 'strings' },
  { words: /string|streicher|archi/u, kind: 'strings' },
];

/** What a program of General MIDI level 1 is; the first and the last that are it, as they stand in the file. */
interface ProgramMeaning extends Pick<Meaning, 'name' | 'kind'> {
  readonly from: number;
  readonly to: number;
}

/** General MIDI level 1 sound set (RP-003, table 2). */
const programs: readonly ProgramMeaning[] = [
  { from: 40, to: 40, name: 'violin', kind: 'strings' },
  { from: 41, to: 41, name: 'viola', kind: 'strings' },
  { from: 42, to: 42, name: 'cello', kind: 'strings' },
  { from: 43, to: 43, name: 'double bass', kind: 'strings' },
  { from: 44, to: 45, kind: 'strings' },
  { from: 46, to: 46, name: 'harp' },
  { from: 47, to: 47, name: 'timpani' },
  { from: 48, to: 51, kind: 'strings' },
  { from: 56, to: 56, name: 'trumpet', kind: 'trumpet' },
  { from: 57, to: 57, name: 'trombone', kind: 'trombone' },
  { from: 58, to: 58, name: 'tuba', kind: 'tuba' },
  { from: 59, to: 59, name: 'trumpet', kind: 'trumpet' },
  { from: 60, to: 60, name: 'horn', kind: 'horn' },
  { from: 68, to: 68, name: 'oboe', kind: 'woodwind' },
  { from: 69, to: 69, name: 'English horn', kind: 'woodwind' },
  { from: 70, to: 70, name: 'bassoon', kind: 'woodwind' },
  { from: 71, to: 71, name: 'clarinet', kind: 'woodwind' },
  { from: 72, to: 72, name: 'piccolo', kind: 'woodwind' },
  { from: 73, to: 73, name: 'flute', kind: 'woodwind' },
  { from: 74, to: 75, kind: 'woodwind' },
];

function meaningOf(name: string): Meaning | undefined {
  const said = name.normalize('NFC').toLowerCase();
  return vocabulary.find(({ words }) => words.test(said));
}

function meaningOfProgram(program: number | undefined): ProgramMeaning | undefined {
  return programs.find(({ from, to }) => program !== undefined && program >= from && program <= to);
}

/**
 * The instrument that a part is, by its name, else by its General MIDI program; undefined where neither tells, and for
 * what is no single instrument, a whole string orchestra say.
 *
 * @param program as it stands in the file, 0–127
 */
export function instrumentOf(name: string, program?: number): InstrumentName | undefined {
  const said = meaningOf(name);
  return said ? said.name : meaningOfProgram(program)?.name;
}

/** The kind of section that a part is, by its name, else by its program; undefined where neither tells. */
export function kindOf(name: string, program?: number): InstrumentKind | undefined {
  const said = meaningOf(name);
  return said ? said.kind : meaningOfProgram(program)?.kind;
}

/** Whether a name is that of instruments without a pitch; timpani have one. */
export function isUnpitched(name: string): boolean {
  return meaningOf(name)?.isUnpitched === true;
}

/** Names of instruments that are struck or plucked, English, Italian, German and French (common practice, no source). */
const struckWords =
  /\b(piano|pianoforte|klavier|celest[ae]|harpsichord|cembalo|clavecin|glockenspiel|xylo(ph|f)on[eo]?|marimba|vibraphone?|chimes|tubular|bells?|campane|glocken|guitars?|lutes?|mandolin|zither|dulcimer|cimbalom|timpan[io]|pauken|timbales|harp(e|es|s)?|arp[ae]|harfe)\b/u;

/** Programs of General MIDI that are struck or plucked (RP-003, table 2): pianos, mallets, guitars, pizzicato, harp, timpani, plucked, drums. */
const struckPrograms = [
  [0, 15],
  [24, 31],
  [45, 47],
  [104, 108],
  [112, 119],
] as const;

/** Whether notes of a part die away by themselves, by its name, else by its program. */
export function isStruck(name: string, program?: number): boolean {
  if (struckWords.test(name.normalize('NFC').toLowerCase())) return true;
  if (meaningOf(name) || program === undefined) return false;
  return struckPrograms.some(([from, to]) => program >= from && program <= to);
}
