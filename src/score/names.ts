/** The names of MusicXML 4.0 (schema/musicxml.xsd, complex types of the same names). */
export const articulations: readonly string[] = [
  ...['accent', 'strong-accent', 'staccato', 'tenuto', 'detached-legato', 'staccatissimo', 'spiccato'],
  ...['scoop', 'plop', 'doit', 'falloff', 'breath-mark', 'caesura', 'stress', 'unstress', 'soft-accent'],
  'other-articulation',
];

export const technical: readonly string[] = [
  ...['up-bow', 'down-bow', 'harmonic', 'open-string', 'thumb-position', 'fingering', 'pluck'],
  ...['double-tongue', 'triple-tongue', 'stopped', 'snap-pizzicato', 'fret', 'string', 'hammer-on'],
  ...['pull-off', 'bend', 'tap', 'heel', 'toe', 'fingernails', 'hole', 'arrow', 'handbell', 'brass-bend'],
  ...['flip', 'smear', 'open', 'half-muted', 'harmon-mute', 'golpe', 'other-technical'],
];

/** `accidental-mark` stands among the ornaments and says how they sound; it is no ornament itself. */
export const ornaments: readonly string[] = [
  ...['trill-mark', 'turn', 'delayed-turn', 'inverted-turn', 'delayed-inverted-turn', 'vertical-turn'],
  ...['inverted-vertical-turn', 'shake', 'wavy-line', 'mordent', 'inverted-mordent', 'schleifer'],
  ...['tremolo', 'haydn', 'other-ornament'],
];

const all: ReadonlySet<string> = new Set([...articulations, ...technical, ...ornaments]);

export function isElementName(name: string): boolean {
  return all.has(name);
}
