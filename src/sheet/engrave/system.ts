import { firstClass, type Role, roleOf } from './classes.js';
import { readHead, signName } from './head.js';
import { firstPair, type Point, pairsIn } from './points.js';
import { type Drawer, eachTag } from './tags.js';
import { textMarkup } from './texts.js';

/** A staff of a system: its highest and lowest line, and where each bar begins and ends. */
export interface Stave {
  readonly top: number;
  readonly bottom: number;
  readonly bars: readonly { readonly left: number; readonly right: number }[];
}

/** One system, as it was engraved. Lengths and places are in the units of its view box. */
export interface EngravedSystem {
  readonly width: number;
  readonly height: number;
  /** The markup within its view box, without ids; signs are drawn by `<use href="#sign-NAME">`. */
  readonly markup: string;
  /** The signs that it uses: the markup of each, by name. */
  readonly signs: ReadonlyMap<string, string>;
  /** Where notes and rests stand, by their ids: the left edge of the head, on its middle line. Rests of whole bars, which stand in the middle, are left out. */
  readonly places: ReadonlyMap<string, Point>;
  /** From the top. */
  readonly staves: readonly Stave[];
}

/** The group that holds the music, with its margin. */
const musicStarts = '<g class="page-margin"';

/**
 * Reads the SVG of a page that is one system.
 *
 * @throws where there is no music in it
 */
export function readSystem(svg: string): EngravedSystem {
  const from = svg.indexOf(musicStarts);
  if (from < 0) throw new Error('the engraver drew no music');
  const drawing = new Drawing();
  eachTag(svg, from, drawing);
  const { markup, places, staves } = drawing;
  return { ...readHead(svg.slice(0, from)), markup, places, staves };
}

/** An element that is open. */
interface Open {
  readonly name: string;
  readonly role: Role;
  /** Whether its tags are written. */
  readonly isKept: boolean;
  /** Its lines, as paths; those of a staff are its first elements. */
  readonly lines: string[];
  /** How many staves there were in it. */
  staves: number;
}

/** What is made of a drawing's music, tag by tag. */
class Drawing implements Drawer {
  markup = '';
  /** Whether the last tag that was written still lacks its end, since nothing is known of what is in it. */
  #isUnended = false;
  readonly places = new Map<string, Point>();
  readonly staves: { top: number; bottom: number; bars: { left: number; right: number }[] }[] = [];
  readonly #open: Open[] = [];
  #margin: Point = { x: 0, y: 0 };
  /** The note or rest whose first sign is waited for. */
  #placing: string | undefined;
  /** How many elements are open that nothing is drawn of: the engraver's numbers of bars. */
  #hidden = 0;

  opens(name: string, attributes: Readonly<Record<string, string>>, written: string): void {
    const role = roleOf(attributes.class);
    if (this.#hidden > 0 || role.isNumber) {
      this.#hidden += 1;
      return;
    }
    // A group that says only what something is draws nothing of its own.
    const isKept = name !== 'g' || role.isSpokenOf || attributes.transform !== undefined;
    const around = this.#open.at(-1);
    if (name === 'use') this.#place(attributes.transform);
    if (name === 'path' && around?.role.isStaff) around.lines.push(attributes.d ?? '');
    if (isKept) {
      this.#write(`<${name}${tidy(written)}`);
      this.#isUnended = true;
    }
    if (this.#open.length === 0) this.#margin = firstPair(attributes.transform ?? '') ?? this.#margin;
    if (role.isPlaced) this.#placing = attributes.id;
    this.#open.push({ name, role, isKept, lines: [], staves: 0 });
  }

  text(element: string): void {
    if (this.#hidden === 0) this.#write(textMarkup(element));
  }

  closes(): void {
    if (this.#hidden > 0) {
      this.#hidden -= 1;
      return;
    }
    const closed = this.#open.pop();
    if (!closed) return;
    const { name, role, isKept } = closed;
    if (role.isStaff) this.#addStaff(closed);
    if (role.isPlaced) this.#placing = undefined;
    if (!isKept) return;
    this.markup += this.#isUnended ? '/>' : `</${name}>`;
    this.#isUnended = false;
  }

  #write(text: string): void {
    this.markup += this.#isUnended ? `>${text}` : text;
    this.#isUnended = false;
  }

  #place(transform = ''): void {
    if (this.#placing === undefined) return;
    const corner = firstPair(transform);
    const { x, y } = this.#margin;
    if (corner) this.places.set(this.#placing, { x: corner.x + x, y: corner.y + y });
    this.#placing = undefined;
  }

  /** Staves are drawn measure by measure; the n-th of each measure is the same staff. */
  #addStaff({ lines }: Open): void {
    const measure = this.#open.at(-1);
    if (!measure?.role.isMeasure) return;
    const index = measure.staves;
    measure.staves += 1;
    const { x, y } = this.#margin;
    const [left, right] = pairsIn(lines[0] ?? '');
    if (!left || !right) return;
    const lowest = firstPair(lines.at(-1) ?? '')?.y ?? left.y;
    const known = this.staves[index] ?? { top: left.y + y, bottom: lowest + y, bars: [] };
    known.bars.push({ left: left.x + x, right: right.x + x });
    this.staves[index] = known;
  }
}

/** Takes ids out, which are of no use in a page, and points to the signs of all systems. */
function tidy(written: string): string {
  return written.replace(/ (id|class|href)="([^"]*)"/g, (_, name: string, value: string) => {
    if (name === 'id') return '';
    return name === 'class' ? ` class="${firstClass(value)}"` : ` href="#sign-${signName(value.slice(1))}"`;
  });
}
