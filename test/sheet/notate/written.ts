import { type Element, isTag, type ParentNode } from 'domhandler';
import { DomUtils, parseDocument } from 'htmlparser2';

/** Reads an MEI text's elements, in order. */
export function elementsOf(mei: string): readonly Element[] {
  return DomUtils.filter(isTag, parseDocument(mei, { xmlMode: true }).children, true) as readonly Element[];
}

export function named(mei: string, name: string): readonly Element[] {
  return elementsOf(mei).filter((element) => element.name === name);
}

/**
 * A staff bar by bar, its layers parted by `|`: `c4:8.` a dotted eighth, `~` tied to the next, `cs4` with a sharp
 * that is shown, `[c4 e4]` a chord, `r` a rest, `s` a space, `R` an empty bar, `3:2(…)` a tuplet, `{…}` a beam.
 */
export function barsOf(mei: string, staff = 1): readonly string[] {
  const tied = new Set(named(mei, 'tie').map(({ attribs }) => attribs.startid?.slice(1)));
  return named(mei, 'measure').map((measure) => {
    const found = childrenOf(measure).find(
      ({ name, attribs }) => name === 'staff' && attribs.n === String(staff),
    );
    return found
      ? childrenOf(found)
          .map((layer) => contentOf(layer, tied))
          .join(' | ')
      : '';
  });
}

function contentOf(element: Element, tied: ReadonlySet<string | undefined>): string {
  return childrenOf(element)
    .map((child) => textOf(child, tied))
    .join(' ');
}

function textOf(element: Element, tied: ReadonlySet<string | undefined>): string {
  const { name, attribs } = element;
  const value = `:${attribs.dur}${attribs.dots === '1' ? '.' : ''}`;
  if (name === 'beam') return `{${contentOf(element, tied)}}`;
  if (name === 'tuplet') return `${attribs.num}:${attribs.numbase}(${contentOf(element, tied)})`;
  if (name === 'mRest') return 'R';
  if (name === 'mSpace') return 'S';
  if (name === 'multiRest') return `${attribs.num}R`;
  if (name === 'rest' || name === 'space') return name.charAt(0) + value;
  if (name === 'chord')
    return `[${childrenOf(element)
      .map((note) => headOf(note, tied))
      .join(' ')}]${value}`;
  return headOf(element, tied).replace(/~?$/u, (tie) => value + tie);
}

function headOf({ attribs }: Element, tied: ReadonlySet<string | undefined>): string {
  return `${attribs.pname}${attribs.accid ?? ''}${attribs.oct}${tied.has(attribs['xml:id']) ? '~' : ''}`;
}

function childrenOf(node: ParentNode): readonly Element[] {
  return node.children.filter(isTag);
}

/** A fraction of a whole note. */
interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

const add = (a: Fraction, b: Fraction): Fraction => ({
  over: a.over * b.under + b.over * a.under,
  under: a.under * b.under,
});

const times = (a: Fraction, over: bigint, under: bigint): Fraction => ({
  over: a.over * over,
  under: a.under * under,
});

/** Layers whose values do not add up to their bar, by exact fractions of a whole note; and bars without a meter. */
export function wrongLayers(mei: string): readonly string[] {
  const wrong: string[] = [];
  const meters = new Map<string, Fraction>();
  for (const element of elementsOf(mei)) {
    if (element.name === 'staffDef') {
      const sign = childrenOf(element).find(({ name }) => name === 'meterSig');
      if (sign)
        meters.set(element.attribs.n ?? '', {
          over: BigInt(sign.attribs.count ?? 0),
          under: BigInt(sign.attribs.unit ?? 1),
        });
    }
    if (element.name !== 'layer') continue;
    const staff = element.parent && isTag(element.parent) ? element.parent : undefined;
    const meter = meters.get(staff?.attribs.n ?? '') ?? { over: 0n, under: 1n };
    const sum = lengthOf(element, meter);
    if (sum.over * meter.under !== meter.over * sum.under)
      wrong.push(`${staff?.attribs['xml:id']}: ${sum.over}/${sum.under}`);
  }
  return wrong;
}

function lengthOf(element: Element, bar: Fraction): Fraction {
  const { name, attribs } = element;
  if (name === 'mRest' || name === 'mSpace' || name === 'multiRest') return bar;
  if (name === 'layer' || name === 'beam' || name === 'tuplet') {
    const inside = childrenOf(element).reduce((sum, child) => add(sum, lengthOf(child, bar)), {
      over: 0n,
      under: 1n,
    });
    const reduced = reduce(inside);
    return name === 'tuplet'
      ? times(reduced, BigInt(attribs.numbase ?? 1), BigInt(attribs.num ?? 1))
      : reduced;
  }
  const plain =
    attribs.dur === 'breve' ? { over: 2n, under: 1n } : { over: 1n, under: BigInt(attribs.dur ?? 0) };
  return attribs.dots === '1' ? times(plain, 3n, 2n) : plain;
}

function reduce({ over, under }: Fraction): Fraction {
  let [a, b] = [over, under];
  while (b !== 0n) [a, b] = [b, a % b];
  return a === 0n ? { over: 0n, under: 1n } : { over: over / a, under: under / a };
}
