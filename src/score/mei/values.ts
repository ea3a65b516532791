import type { Spelled } from '../neighbours.js';
import { childrenOf, numberIn, type XmlElement } from '../xml/element.js';

/** Quarters of `dur` (MEI 5, data.DURATION.cmn). */
export function quartersOf(dur: string | undefined, dots: number): number | undefined {
  const plain = dur === 'maxima' ? 32 : dur === 'long' ? 16 : dur === 'breve' ? 8 : 4 / Number(dur);
  const isLength =
    dur !== undefined && Number.isFinite(plain) && plain > 0 && Number.isInteger(Math.log2(plain));
  return isLength ? plain * (2 - 2 ** -dots) : undefined;
}

const steps: ReadonlyMap<string, number> = new Map(
  Object.entries({ c: 0, d: 2, e: 4, f: 5, g: 7, a: 9, b: 11 }),
);

/** Semitones of written and gestural accidentals (MEI 5, data.ACCIDENTAL.WRITTEN, data.ACCIDENTAL.GESTURAL). */
const accidentals: ReadonlyMap<string, number> = new Map(
  Object.entries({
    ...{ s: 1, ss: 2, x: 2, xs: 3, sx: 3, ts: 3, f: -1, ff: -2, tf: -3, n: 0, nf: -1, ns: 1 },
    // quarter tones, printed and played
    ...{ '1qs': 0.5, '3qs': 1.5, '1qf': -0.5, '3qf': -1.5, '5qs': 2.5, '5qf': -2.5 },
    ...{ su: 1.5, sd: 0.5, fu: -0.5, fd: -1.5, nu: 0.5, nd: -0.5, xu: 2.5, ffd: -2.5 },
  }),
);

/** Whether a note says how it is inflected, printed or played. */
export function isInflected(note: XmlElement): boolean {
  return inflectionOf(note) !== undefined;
}

/** What is played (.ges) comes before what is printed. */
function inflectionOf(note: XmlElement): string | undefined {
  const inner = childrenOf(note, 'accid')[0];
  return (
    note.attributes.get('accid.ges') ??
    inner?.attributes.get('accid.ges') ??
    note.attributes.get('accid') ??
    inner?.attributes.get('accid')
  );
}

/** Semitones of an accidental; undefined for one of none, or of quarter tones. */
export function alterOf(accidental: string | undefined): number | undefined {
  return accidentals.get(accidental ?? '');
}

/**
 * The written pitch as MIDI counts it, by name, octave and inflection; what is played (.ges) comes before what is printed.
 * undefined where it says none.
 */
export function pitchOf(note: XmlElement): number | undefined {
  const step = steps.get(note.attributes.get('pname.ges') ?? note.attributes.get('pname') ?? '');
  const octave = numberIn(note, 'oct.ges') ?? numberIn(note, 'oct');
  if (step === undefined || octave === undefined) return undefined;
  return 12 * (octave + 1) + step + (accidentals.get(inflectionOf(note) ?? '') ?? 0);
}

/** The written pitch by its step. */
export function spelledOf(note: XmlElement): Spelled | undefined {
  const step = [...steps.keys()].indexOf(note.attributes.get('pname') ?? '');
  const octave = numberIn(note, 'oct');
  if (step < 0 || octave === undefined) return undefined;
  return { step, octave, alter: accidentals.get(inflectionOf(note) ?? '') ?? 0 };
}

/** Marks on a stem: "3slash" is 3 (MEI 5, data.STEMMODIFIER.cmn). */
export function strokesOf(text: string | undefined): number | undefined {
  const count = /^(?:([1-6])slash|([1-8]))$/u.exec(text ?? '');
  return count ? Number(count[1] ?? count[2]) : undefined;
}

/** MusicXML 4.0 names of MEI's articulations (MEI 5, data.ARTICULATION). */
const articulations: ReadonlyMap<string, readonly string[]> = new Map([
  ['acc', ['accent']],
  ['acc-soft', ['soft-accent']],
  ['stacc', ['staccato']],
  ['dot', ['staccato']],
  ['ten', ['tenuto']],
  ['ten-stacc', ['detached-legato']],
  ['stacciss', ['staccatissimo']],
  ['stroke', ['staccatissimo']],
  ['marc', ['strong-accent']],
  ['marc-stacc', ['strong-accent', 'staccato']],
  ['spicc', ['spiccato']],
  ['stress', ['stress']],
  ['unstress', ['unstress']],
  ['doit', ['doit']],
  ['scoop', ['scoop']],
  ['rip', ['scoop']],
  ['plop', ['plop']],
  ['fall', ['falloff']],
  ['longfall', ['falloff']],
  ['bend', ['bend']],
  ['flip', ['flip']],
  ['smear', ['smear']],
  ['shake', ['shake']],
  ['dnbow', ['down-bow']],
  ['upbow', ['up-bow']],
  ['harm', ['harmonic']],
  ['snap', ['snap-pizzicato']],
  ['fingernail', ['fingernails']],
  ['open', ['open']],
  ['stop', ['stopped']],
  ['dbltongue', ['double-tongue']],
  ['trpltongue', ['triple-tongue']],
  ['heel', ['heel']],
  ['toe', ['toe']],
  ['tap', ['tap']],
]);

/** Articulations of an element, by its attribute and its children. */
export function articulationsOf(element: XmlElement): readonly string[] {
  const own = element.attributes.get('artic') ?? '';
  const inner = childrenOf(element, 'artic').map(({ attributes }) => attributes.get('artic') ?? '');
  return [own, ...inner]
    .join(' ')
    .split(/\s+/u)
    .flatMap((name) => articulations.get(name) ?? []);
}

/** A reference to an id: `#n1`. */
export function referenceOf(text: string | undefined): string | undefined {
  return text?.trim().replace(/^#/u, '');
}
