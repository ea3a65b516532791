import type { NotatedBar } from '../notate/index.js';
import type { Sheet } from '../types.js';

/** What the shapes of the sheet mean; only those that it has. */
export function legendMarkup({ parts, balance, harmony }: Sheet, bars: readonly NotatedBar[]): string {
  const rows = [
    harmony.length > 0 && ['C/E', 'the chord that sounds, and its lowest note'],
    ['<i>long</i> C1', 'an articulation, as long as its line; what is sent for it'],
    [
      '<i>long / short</i>',
      'articulations that change too often to be named each for itself; the table of parts says what each sends',
    ],
    parts.some(({ curve }) => curve) && [picture('curve'), 'the dynamics controller'],
    parts.some(({ notes }) => notes.some(({ isStruck }) => isStruck)) && [
      picture('strike'),
      'velocity, where it makes the note loud or soft',
    ],
    parts.some(({ switches }) => switches.length > 0) && [
      picture('switch'),
      'a switch, and its lead up to the note',
    ],
    parts.some(({ layers }) => layers.length > 0) && [picture('layer'), 'a note that a layer doubles'],
    ['▲ △', 'a warning, an observation: see the list'],
    bars.some((bar) => bar.bars > 1) && [
      picture('many'),
      'so many bars at once: of rest, or held, where it stands under the staff',
    ],
    balance.length > 0 && ['◂', 'a section that another covers, in the balance'],
  ].filter((row) => row !== false);
  const items = rows.map(([sign, means]) => `<div><dt>${sign}</dt><dd>${means}</dd></div>`);
  return `<details class="legend" open><summary>Signs</summary><dl>${items.join('')}</dl><p>Point at a note, or reach it with Tab and the arrow keys, to read why it has its articulation. Esc closes.</p></details>`;
}

const shapes = {
  curve: '<path class="under" d="M0 60V30H70V15H140V60Z"/><path class="over" d="M0 30H70V15H140"/>',
  strike: '<path class="strikes" d="M20 60V20M60 60V8M100 60V34"/>',
  switch: '<path class="lead" d="M40 40H110"/><path class="sent" d="M40 12V68"/>',
  many: '<path class="many" d="M20 20V60M120 20V60M20 32H120V48H20Z"/>',
  layer: '<path class="layered" d="M70 8l32 32l-32 32l-32 -32z"/><ellipse cx="70" cy="40" rx="15" ry="11"/>',
} as const;

function picture(name: keyof typeof shapes): string {
  return `<svg class="sign" viewBox="0 0 140 80" aria-hidden="true">${shapes[name]}</svg>`;
}
