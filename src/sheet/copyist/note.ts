import { markElements } from './elements.js';
import type { EventSigns } from './phrasing.js';
import { type Clef, element, type Head, type Piece, xmlText } from './written.js';

/** What one written value needs besides itself. */
export interface PieceText {
  readonly heads: readonly Head[];
  /** MIDI pitches of the heads, in the same order. */
  readonly pitches: readonly number[];
  readonly clef: Clef;
  /** 1 or 2. */
  readonly voice: number;
  /** XML already. */
  readonly beams: string;
  readonly tuplet: 'start' | 'stop' | undefined;
  readonly signs: EventSigns | undefined;
  readonly isRolled: boolean;
  /** The id of the part's sound for a pitch; percussion only. */
  readonly instrument?: (pitch: number) => string;
}

/** MusicXML's lowest octave begins with this MIDI note. */
export const lowestPitch = 12;

/** Names of note values; dots aside. */
const types: Readonly<Record<string, string>> = {
  breve: 'breve',
  1: 'whole',
  2: 'half',
  4: 'quarter',
  8: 'eighth',
  16: '16th',
  32: '32nd',
  64: '64th',
  128: '128th',
  256: '256th',
  512: '512th',
  1024: '1024th',
};

const accidentals: ReadonlyMap<number, string> = new Map([
  [-2, 'flat-flat'],
  [-1, 'flat'],
  [0, 'natural'],
  [1, 'sharp'],
  [2, 'double-sharp'],
]);

/**
 * The notes of one written value, a rest, or a step over empty space. Space within a tuplet is a rest that is not
 * shown: a reader has the tuplet whole, and need not count a step that no note value has.
 */
export function pieceText(piece: Piece, about: PieceText): string {
  const { event, isSpace, start, end } = piece;
  const duration = element('duration', {}, String(end - start));
  if (!event && isSpace && !piece.tuplet)
    return element('forward', {}, duration + element('voice', {}, String(about.voice)));
  const notations = about.tuplet ? tupletText(about.tuplet) : '';
  if (!event) {
    const content = `<rest/>${duration}${valueText(piece, about, '')}${notationsText(notations)}`;
    return element('note', isSpace ? { 'print-object': 'no' } : {}, content);
  }
  return about.heads.map((head, index) => noteText(piece, head, index, duration, about)).join('');
}

function noteText(piece: Piece, head: Head, index: number, duration: string, about: PieceText): string {
  const { event, nth, end } = piece;
  const goesOn = event !== undefined && end < event.end;
  const ties = [...(nth > 0 ? ['stop'] : []), ...(goesOn ? ['start'] : [])];
  const pitch = about.pitches[index] ?? 0;
  const spelling = inOctaves(head.spelling, pitch);
  const isRespelled = spelling.alter !== head.spelling.alter;
  const accidental =
    head.showsAccidental || isRespelled
      ? element('accidental', {}, accidentals.get(spelling.alter) ?? 'natural')
      : '';
  const sound = about.instrument?.(pitch);
  const isFirst = index === 0;
  const content = [
    isFirst ? '' : '<chord/>',
    about.clef.shape === 'perc' ? unpitched(head, about.clef) : pitched(spelling),
    duration,
    ties.map((type) => element('tie', { type })).join(''),
    sound === undefined ? '' : element('instrument', { id: sound }),
    valueText(piece, about, accidental),
    isFirst ? about.beams : '',
    notationsText(
      ties.map((type) => element('tied', { type })).join('') + notationsOf(about, isFirst, nth === 0),
    ),
  ].join('');
  return element('note', { id: head.id }, content);
}

/** What stands at a chord's first head, slurs and marks only where it is struck; and the sign for a rolled chord. */
function notationsOf(about: PieceText, isFirst: boolean, isStruck: boolean): string {
  const { signs, tuplet } = about;
  const rolled = about.isRolled && isStruck ? '<arpeggiate/>' : '';
  if (!isFirst) return rolled;
  const inTuplet = tuplet ? tupletText(tuplet) : '';
  if (!isStruck || !signs) return inTuplet + rolled;
  const slurs = signs.slurs.map((type) => element('slur', { type, number: 1 })).join('');
  return slurs + inTuplet + marksText(signs.elements) + rolled;
}

function pitched({ step, alter, octave }: Head['spelling']): string {
  const altered = alter === 0 ? '' : element('alter', {}, String(alter));
  return element('pitch', {}, `<step>${step.toUpperCase()}</step>${altered}<octave>${octave}</octave>`);
}

/** MusicXML has octaves 0 to 9: what sounds lower is written an octave higher, and B♯ below them is C. */
function inOctaves({ step, alter, octave }: Head['spelling'], pitch: number): Head['spelling'] {
  const within = pitch < lowestPitch ? octave + 1 : octave;
  return within < 0 ? { step: 'c', alter: alter - 1, octave: 0 } : { step, alter, octave: within };
}

/** The place on the staff says nothing of the sound, so that it may be held within the octaves that there are. */
function unpitched({ spelling: { step, octave } }: Head, { octaves }: Clef): string {
  const place = Math.max(0, Math.min(9, octave - octaves));
  const display = `<display-step>${step.toUpperCase()}</display-step><display-octave>${place}</display-octave>`;
  return element('unpitched', {}, display);
}

/** Voice, note value, dots, accidental, and how a tuplet changes the time. */
function valueText({ value, tuplet }: Piece, { voice }: PieceText, accidental: string): string {
  const change = tuplet
    ? `<actual-notes>${tuplet.num}</actual-notes><normal-notes>${tuplet.numbase}</normal-notes>`
    : '';
  return [
    element('voice', {}, String(voice)),
    element('type', {}, types[value.dur] ?? 'quarter'),
    value.dots > 0 ? '<dot/>' : '',
    accidental,
    tuplet ? element('time-modification', {}, change) : '',
  ].join('');
}

function tupletText(type: 'start' | 'stop'): string {
  return element('tuplet', { type, number: 1 });
}

/** Marks in the order of MusicXML's lists. */
function marksText(names: readonly string[]): string {
  const lists = ['ornaments', 'technical', 'articulations'] as const;
  return lists
    .map((list) => {
      const own = names.flatMap((name) => {
        const mark = markElements.get(name);
        if (mark?.list !== list) return [];
        const start = `<${name}${mark.attributes ?? ''}`;
        return [mark.content === undefined ? `${start}/>` : `${start}>${mark.content}</${name}>`];
      });
      return own.length > 0 ? element(list, {}, own.join('')) : '';
    })
    .join('');
}

function notationsText(content: string): string {
  return content === '' ? '' : element('notations', {}, content);
}

/** The elements of MusicXML's `dynamics`. */
const dynamics = new Set([
  ...['p', 'pp', 'ppp', 'pppp', 'ppppp', 'pppppp', 'f', 'ff', 'fff', 'ffff', 'fffff', 'ffffff', 'mp', 'mf'],
  ...['sf', 'sfp', 'sfpp', 'fp', 'rf', 'rfz', 'sfz', 'sffz', 'fz', 'n', 'pf', 'sfzp'],
]);

/** A dynamic below the staff: its sign where it has one, else its text. */
export function dynamicText(name: string): string {
  const text = xmlText(name).trim();
  if (text === '') return '';
  const sign = dynamics.has(text) ? `<${text}/>` : element('other-dynamics', {}, text);
  const type = element('direction-type', {}, element('dynamics', {}, sign));
  return element('direction', { placement: 'below' }, type);
}

/** Words above the staff. */
export function wordsText(words: string): string {
  const content = xmlText(words);
  if (content.trim() === '') return '';
  const direction = element('direction-type', {}, element('words', {}, content));
  return element('direction', { placement: 'above' }, direction);
}
