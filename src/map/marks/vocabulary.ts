/**
 * The names that a mark may have. Elements: MusicXML 4.0, `articulations`, `technical` (playing techniques of
 * orchestral instruments) and `ornaments` (from memory; W3C Community Final Specification Agreement, which lets anybody
 * use the names). Playing words: common practice, no source.
 */
const elements = [
  ...['accent', 'strong-accent', 'staccato', 'tenuto', 'detached-legato', 'staccatissimo', 'spiccato'],
  ...['scoop', 'plop', 'doit', 'falloff', 'breath-mark', 'caesura', 'stress', 'unstress', 'soft-accent'],
  ...[
    'up-bow',
    'down-bow',
    'harmonic',
    'open-string',
    'thumb-position',
    'fingering',
    'pluck',
    'double-tongue',
  ],
  ...['triple-tongue', 'stopped', 'snap-pizzicato', 'fret', 'string', 'hammer-on', 'pull-off', 'bend', 'tap'],
  ...['heel', 'toe', 'fingernails', 'hole', 'arrow', 'handbell', 'brass-bend', 'flip', 'smear', 'open'],
  ...['half-muted', 'harmon-mute', 'golpe', 'other-technical', 'other-articulation'],
  ...['trill-mark', 'turn', 'delayed-turn', 'inverted-turn', 'delayed-inverted-turn', 'vertical-turn'],
  ...['inverted-vertical-turn', 'shake', 'wavy-line', 'mordent', 'inverted-mordent', 'schleifer', 'tremolo'],
  ...['haydn', 'other-ornament'],
] as const;

const words = ['arco', 'pizz.', 'con sord.', 'senza sord.', 'trem.', 'col legno', 'sul pont.', 'sul tasto'];
const lengthWords = ['marc.', 'ten.', 'stacc.', 'legato'];

/** Words that say the same as an element. */
const sameAs: ReadonlyMap<string, string> = new Map([
  ['stacc.', 'staccato'],
  ['ten.', 'tenuto'],
  ['marc.', 'strong-accent'],
  ['trem.', 'tremolo'],
]);

/** Every spelling that is understood, in the order in which help lists them. */
export const knownMarks: readonly string[] = [...words, ...lengthWords, ...elements];

const known: ReadonlySet<string> = new Set(knownMarks);

/**
 * The one name under which a mark is compared (`stacc.` is `staccato`); undefined for an unknown mark.
 * Case and runs of white space do not matter.
 */
export function canonicalMark(name: string): string | undefined {
  const plain = plainMark(name);
  return known.has(plain) ? (sameAs.get(plain) ?? plain) : undefined;
}

/** A mark's name in lower case, with single spaces. */
export function plainMark(name: string): string {
  return name.trim().toLowerCase().replace(/\s+/gu, ' ');
}
