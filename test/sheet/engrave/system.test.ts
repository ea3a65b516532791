import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readSystem } from '../../../src/sheet/engrave/system.js';
import { draws } from '../../support/draws.js';
import { readByTree } from './by-tree.js';

const number = fc.integer({ min: -3000, max: 9000 });
const classes = fc.constantFrom(
  'note',
  'rest',
  'staff',
  'measure',
  'layer',
  'notehead',
  'dir',
  'mNum',
  'chord',
  'harm x',
  'system y',
);
const id = fc.stringMatching(/^[a-z][a-z0-9-]{0,6}$/);
const text = fc.string({ unit: fc.constantFrom('<', '&', '"', "'", '♭', '\uea64', ' ', 'a', ']]>', '😀') });

/** Character data as a writer of XML spells it. */
function spelled(said: string): string {
  return said.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

const path = fc
  .tuple(number, number, number)
  .map(([a, b, c]) => `<path d="M${a} ${b} L${c} ${b}" stroke-width="13"/>`);
const sign = fc
  .tuple(fc.constantFrom('E0A4', 'E262'), number, number, fc.boolean())
  .map(
    ([code, x, y, hasId]) =>
      `<use ${hasId ? 'id="u1" ' : ''}href="#${code}-x1y2" transform="translate(${x}, ${y}) scale(0.72, 0.72)"/>`,
  );
const words = fc
  .tuple(text, text, fc.constantFrom('', ' font-family="Leipzig"'))
  .map(
    ([one, other, font]) =>
      `<text x="1" y="2"><tspan id="t" class="text z"><tspan font-size="405px">${spelled(one)}</tspan><tspan${font}>${spelled(other)}</tspan></tspan></text>`,
  );

/** What stands in a drawing: notes within notes are not drawn. */
const { content } = fc.letrec<{ content: string }>((tie) => ({
  content: fc
    .array(
      fc.oneof(
        { depthSize: 'small' },
        path,
        sign,
        words,
        fc
          .tuple(
            fc.option(id),
            fc.option(classes),
            fc.constantFrom('', ' transform="translate(4, 5)"'),
            tie('content'),
          )
          .map(([name, names, moved, inside]) => {
            const isNested = /note"|rest"/u.test(inside) && (names === 'note' || names === 'rest');
            // Within numbers of bars nothing else is drawn than texts.
            const isNoNumber = names === 'mNum' && /class="(?:note|rest|staff|measure)/u.test(inside);
            const of = isNested || isNoNumber ? 'chord' : names;
            const start = `<g${name === null ? '' : ` id="${name}"`}${of === null ? '' : ` class="${of}"`}${moved}`;
            return inside === '' ? `${start}/>` : `${start}>${inside}</g>`;
          }),
      ),
      { maxLength: 5 },
    )
    .map((parts) => parts.join('')),
}));

const drawn = (inside: string) =>
  `<svg viewBox="0 0 9 9" id="q"><desc>by &amp; of</desc><defs><g id="E0A4-x1y2"><path d="M0 -39c0 68"/></g></defs><svg class="definition-scale" viewBox="0 0 24000 5000"><g class="page-margin" transform="translate(200, 450)">${inside}</g></svg></svg>`;

it('a drawing is read as by a tree of it', () => {
  fc.assert(
    fc.property(content, (inside) => {
      const svg = drawn(inside);
      expect(readSystem(svg)).toEqual(readByTree(svg));
    }),
    { numRuns: draws(300) },
  );
});

it('texts come out as texts, whatever they say', () => {
  const said = '<script>alert(1)</script> & "x"';
  const { markup } = readSystem(drawn(`<text x="1" y="2"><tspan>${spelled(said)}</tspan></text>`));
  expect(markup).not.toContain('<script');
  expect(markup).toContain('&lt;script&gt;');
});

it.each([
  ['<!-- words -->', ''],
  ['words', ''],
  ['<g class="dir &amp; é"/>', '<g class="dir"/>'],
  ['<path  d="M1 2"  />', '<path  d="M1 2"/>'],
  ['<path d="&lt;M1&quot;"/>', '<path d="&lt;M1&quot;"/>'],
])('has of %s %s', (inside, markup) => {
  expect(readSystem(drawn(`<path/>${inside}`)).markup).toBe(
    readSystem(drawn('<path/>')).markup.replace('<path/>', `<path/>${markup}`),
  );
});

it('reads nothing behind the music', () => {
  const svg = drawn('<path/>');
  const more = svg.replace('</svg></svg>', '<g class="page-margin"><use/></g></svg></svg>');
  expect(readSystem(more)).toEqual(readSystem(svg));
});

it('refuses a page without music', () => {
  expect(() => readSystem('<svg viewBox="0 0 9 9"/>')).toThrow('the engraver drew no music');
});
