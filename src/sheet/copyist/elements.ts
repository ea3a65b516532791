/** In which list of MusicXML's notations a mark stands, and how it is written. */
export interface MarkElement {
  readonly list: 'articulations' | 'technical' | 'ornaments';
  /** Attributes as they are written, with a space before each. */
  readonly attributes?: string;
  readonly content?: string;
}

const plain = (list: MarkElement['list'], ...names: readonly string[]): [string, MarkElement][] =>
  names.map((name) => [name, { list }]);

/**
 * The marks that have an element of their own in MusicXML 4.0 (musicxml.xsd) and need nothing but their name, or a value
 * that goes without saying. Others (a finger, a fret, a bend, a hammer-on from one note to the next) need to be told
 * more than a mark says; they are written as words.
 */
export const markElements: ReadonlyMap<string, MarkElement> = new Map<string, MarkElement>([
  ...plain(
    'articulations',
    ...['accent', 'strong-accent', 'staccato', 'tenuto', 'detached-legato', 'staccatissimo', 'spiccato'],
    ...['scoop', 'plop', 'doit', 'falloff', 'breath-mark', 'caesura', 'stress', 'unstress', 'soft-accent'],
  ),
  ...plain(
    'technical',
    ...['up-bow', 'down-bow', 'harmonic', 'open-string', 'thumb-position', 'double-tongue', 'triple-tongue'],
    ...['stopped', 'snap-pizzicato', 'heel', 'toe', 'fingernails', 'brass-bend', 'flip', 'smear', 'open'],
    ...['half-muted', 'golpe'],
  ),
  ['harmon-mute', { list: 'technical', content: '<harmon-closed>yes</harmon-closed>' }],
  ...plain(
    'ornaments',
    ...['trill-mark', 'turn', 'delayed-turn', 'inverted-turn', 'delayed-inverted-turn', 'vertical-turn'],
    ...['inverted-vertical-turn', 'shake', 'mordent', 'inverted-mordent', 'schleifer', 'haydn'],
  ),
  // Three strokes: unmeasured (common practice, no source).
  ['tremolo', { list: 'ornaments', attributes: ' type="single"', content: '3' }],
]);
