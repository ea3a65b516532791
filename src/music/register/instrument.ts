import type { InstrumentName } from './ranges.js';

/**
 * Words of track names, English, Italian, German and French (common practice, no source); the first that fits. What
 * carries the name of another instrument within its own comes before it; null is an instrument without a range here.
 */
const words: readonly (readonly [RegExp, InstrumentName | null])[] = [
  [/sax|recorder|blockfl|pan ?fl|guitar|drum|gamba|basset ?horn|fl[üu]gelhorn|wagner/u, null],
  [/bass (flute|oboe|trumpet)|piccolo trumpet|tenor (horn|tuba)|contrabass (clarinet|trombone|tuba)/u, null],
  [/english horn|cor anglais|corno inglese|englischhorn/u, 'English horn'],
  [/piccolo|ottavino|petite fl[ûu]te/u, 'piccolo'],
  [/alto flute|altfl[öo]te|flauto (contr)?alto|fl[ûu]te (alto|en sol)/u, 'alto flute'],
  [/fl[uû]te|fl[öo]te|flaut/u, 'flute'],
  [/oboe|oboi\b|hautbois/u, 'oboe'],
  [/bass clarinet|clarinett[oi] bass[oi]|bassklarinette|clarinette basse/u, 'bass clarinet'],
  [/clarinet|klarinette/u, 'clarinet'],
  [/contrabassoon|double bassoon|contr[ao]fagott|kontrafagott|contrebasson/u, 'contrabassoon'],
  [/bassoon|fagott|basson/u, 'bassoon'],
  [/bass trombone|trombon[ei] bass[oi]|bassposaune|trombone basse/u, 'bass trombone'],
  [/trombon|posaune/u, 'trombone'],
  [/trumpet|trompete|trompette|\btromb[ae]\b/u, 'trumpet'],
  [/\btub[ae]\b|\btub(a|e)s\b|basstuba/u, 'tuba'],
  [/\bhorns?\b|\bh[öo]rner\b|\bcorn[oi]\b|\bcors?\b/u, 'horn'],
  [/timpan|pauken|timbales/u, 'timpani'],
  [/\bharp(e|es|s)?\b|\barp[ae]\b|harfe/u, 'harp'],
  [/soprano|soprani|sopran\b/u, 'soprano'],
  [/contralto|(choir|chorus|chor|voices?) alt|\balt[oi]?s? (choir|voices?)|\bcontralti/u, 'alto'],
  [/\btenor[ei]?s?\b|\btenöre\b|ténors?\b/u, 'tenor'],
  [/bar[iy]ton/u, 'baritone'],
  [/(choir|chorus|chor|voices?) b[aä]ss|\bbass(es)? (choir|voices?)/u, 'bass'],
  [
    /double bass|string bass|contrabb?ass|kontrab[aä]|contrebasse|\bbasses\b|\bbassi\b|\bbässe\b/u,
    'double bass',
  ],
  [/cell[oi]s?\b|violoncell/u, 'cello'],
  [/violin|\bviolons?\b|geige/u, 'violin'],
  [/\bviol[ae]\b|\bviolas\b|bratsche|\baltos?\b/u, 'viola'],
];

/** General MIDI level 1 sound set (from memory), program as it stands in the file. */
const programs: ReadonlyMap<number, InstrumentName> = new Map([
  [40, 'violin'],
  [41, 'viola'],
  [42, 'cello'],
  [43, 'double bass'],
  [46, 'harp'],
  [47, 'timpani'],
  [56, 'trumpet'],
  [57, 'trombone'],
  [58, 'tuba'],
  [59, 'trumpet'],
  [60, 'horn'],
  [68, 'oboe'],
  [69, 'English horn'],
  [70, 'bassoon'],
  [71, 'clarinet'],
  [72, 'piccolo'],
  [73, 'flute'],
]);

/**
 * The instrument that a part is, by its name, else by its General MIDI program; undefined where neither tells, and for
 * what is no single instrument, a whole string orchestra say.
 *
 * @param program as it stands in the file, 0–127
 */
export function instrumentOf(name: string, program?: number): InstrumentName | undefined {
  const said = name.normalize('NFC').toLowerCase();
  const named = words.find(([word]) => word.test(said))?.[1];
  if (named === null) return undefined;
  return named ?? (program === undefined ? undefined : programs.get(program));
}
