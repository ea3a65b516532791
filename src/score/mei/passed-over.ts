import type { Findings, Spot } from '../diagnostic.js';
import type { XmlElement } from '../xml/element.js';

/** What is not read, told once for each name at the end, with how often it is there. */
export interface PassedOver {
  put(element: XmlElement): void;
  tell(): void;
}

/**
 * Elements of MEI 5 that say nothing of how the music sounds: text, layout, analysis, fingering, names, and signs that
 * leave it to the players. Whatever else is not read is told.
 */
export const silent: ReadonlySet<string> = new Set([
  ...['annot', 'anchoredText', 'barLine', 'beamSpan', 'bracketSpan', 'cb', 'clef', 'clefGrp', 'colLayout'],
  ...[
    'cpMark',
    'curve',
    'custos',
    'date',
    'desc',
    'div',
    'dot',
    'expansion',
    'extMeta',
    'f',
    'facsimile',
    'fb',
  ],
  ...[
    'fermata',
    'fing',
    'fingGrp',
    'front',
    'back',
    'genDesc',
    'graphic',
    'grpSym',
    'harm',
    'head',
    'height',
    'incip',
  ],
  ...[
    'instrDef',
    'keyAccid',
    'label',
    'labelAbbr',
    'layerDef',
    'layout',
    'lb',
    'lg',
    'line',
    'lv',
    'mNum',
    'meterSig',
  ],
  ...[
    'keySig',
    'meterSigGrp',
    'midi',
    'name',
    'num',
    'oStaff',
    'ossia',
    'p',
    'pad',
    'pb',
    'pgDesc',
    'pgFoot',
    'pgFoot2',
  ],
  ...[
    'pgHead',
    'pgHead2',
    'phrase',
    'persName',
    'refrain',
    'reh',
    'rend',
    'sb',
    'score',
    'sp',
    'stageDir',
    'stem',
    'syl',
  ],
  ...[
    'symbol',
    'symbolTable',
    'title',
    'tuning',
    'verse',
    'volta',
    'width',
    'accid',
    'artic',
    'tabDurSym',
    'course',
  ],
  ...[
    'ligature',
    'metaMark',
    'attacca',
    'caption',
    'fig',
    'harpPedal',
    'instrGrp',
    'ambitus',
    'ambNote',
    'staffDef',
  ],
]);

export function passedOver(found: Findings): PassedOver {
  const all = new Map<string, { readonly spot: Spot; count: number }>();
  return {
    put({ name, line, column }) {
      if (silent.has(name)) return;
      const known = all.get(name);
      if (known) known.count += 1;
      else all.set(name, { spot: { line, column }, count: 1 });
    },
    tell() {
      for (const [name, { spot, count }] of all)
        found.warning(
          'score-passed-over',
          spot,
          `<${name.slice(0, 40)}> is not read${count > 1 ? `, here and at ${count - 1} other places` : ''}`,
          'what it says is not in the music; write it in another way where it should be heard',
        );
    },
  };
}
