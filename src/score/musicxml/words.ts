import type { Jump, Sign } from '../model.js';

/** Playing words of the trade as scores print them (common practice, no source), and the mark that each one sets. */
const playing: readonly (readonly [RegExp, Sign])[] = [
  [/\bsnap pizz/u, mark('snap-pizzicato')],
  [/\bpizz/u, mark('pizz.')],
  [/\barco\b/u, mark('arco')],
  [/\b(?:senza sord|sord\w*\.? off|mutes? off|without mute|via sord|ohne d[äa]mpfer)/u, mark('senza sord.')],
  [/\b(?:con sord|mit d[äa]mpfer|with mutes?|muted|mutes? on)/u, mark('con sord.')],
  [/\bcol legno\b/u, mark('col legno')],
  [/\bsul pont/u, mark('sul pont.')],
  [/\b(?:sul tasto|flautando)\b/u, mark('sul tasto')],
  [/\b(?:ord|nat|modo ord|norm)(?:\.|inario|urale|al)?(?=\W|$)/u, { kind: 'ordinary' }],
  [/\btrem(?:\.|olo\b)/u, mark('trem.')],
  [/\blegato\b/u, mark('legato')],
  [/\bstacc(?:\.|ato\b)/u, mark('stacc.')],
  [/\bspicc(?:\.|ato\b)/u, mark('spiccato')],
  [/\bmarc(?:\.|ato\b)/u, mark('marc.')],
  [/\bten(?:\.|uto\b)/u, mark('ten.')],
  [/\bcresc/u, { kind: 'open-hairpin', direction: 1 }],
  [/\b(?:dim(?:\.|in\b|inuendo\b)|decresc)/u, { kind: 'open-hairpin', direction: -1 }],
];

function mark(name: string): Sign {
  return { kind: 'mark', name };
}

/** The marks in a text above or below a staff. */
export function signsOfWords(text: string): readonly Sign[] {
  const plain = text.toLowerCase();
  const signs = playing.filter(([pattern]) => pattern.test(plain)).map(([, sign]) => sign);
  // "snap pizz." is not also "pizz."
  return signs.some((sign) => sign.kind === 'mark' && sign.name === 'snap-pizzicato')
    ? signs.filter((sign) => !(sign.kind === 'mark' && sign.name === 'pizz.'))
    : signs;
}

/** The jump that a text asks for, where no `sound` says it: D.C., D.S., To Coda, Fine. undefined for other texts. */
export function jumpOfWords(text: string, offset: number): Jump | undefined {
  const plain = text.trim().toLowerCase();
  if (/^d\.? ?c\.?(?:\W|$)|^da capo\b/u.test(plain)) return { kind: 'dacapo', offset };
  if (/^d\.? ?s\.?(?:\W|$)|^dal segno\b/u.test(plain)) return { kind: 'dalsegno', name: '', offset };
  if (/^to coda\b|^al coda\b/u.test(plain)) return { kind: 'tocoda', name: '', offset };
  if (/^fine$/u.test(plain)) return { kind: 'fine', offset };
  return undefined;
}
