// A sheet and its engraved systems become one HTML page.
import { createHash } from 'node:crypto';
import { plural } from '../../diagnostics/index.js';
import { countsOf } from '../counts.js';
import type { EngravedSystem } from '../engrave/index.js';
import { drawnBars, type NotatedBar, type Notation } from '../notate/index.js';
import type { SheetSound } from '../player/index.js';
import type { Sheet } from '../types.js';
import { script, style } from './assets.generated.js';
import { notesData } from './data.js';
import { scaleOf } from './lanes/balance.js';
import { legendMarkup } from './legend.js';
import { lengthsMarkup } from './lengths.js';
import { jsonMarkup, plain } from './markup.js';
import { overviewMarkup } from './overview/index.js';
import { paperFor } from './paper.js';
import { partsMarkup } from './parts.js';
import { pagePlayer } from './player.js';
import { remarksMarkup } from './remarks.js';
import { type Slice, slicesOf } from './slices.js';
import { type DrawnSystem, systemMarkup } from './system.js';

/** Of the ring around the note that is told of: a head and a half. */
const ringRadius = 150;

/**
 * The sheet as one HTML page that holds all that it needs: nothing is asked for from anywhere else, and the page itself
 * forbids it (Content Security Policy, by the hashes of its own style and script).
 *
 * @param systems as they were engraved, in order
 * @param sound what the page has to be heard, if anything
 */
export function pageOf(
  sheet: Sheet,
  notation: Notation,
  systems: Iterable<EngravedSystem>,
  sound?: SheetSound,
): string {
  const { positions, drawn, shown } = notation;
  const bars = drawnBars(notation);
  const slices = sheet.parts.map((part, index) =>
    slicesOf(part, notation.bars, positions, (system) => shown[system]?.includes(index) ?? false),
  );
  const entries = entriesOf(slices, drawn);
  const changes = changing(sheet.parts);
  const balance = scaleOf(sheet.balance);
  const barsOf = barsBySystem(bars);
  const music: DrawnSystem[] = [];
  const signs = new Map<string, string>();
  for (const system of systems) {
    const index = drawn.from + music.length;
    for (const [name, markup] of system.signs) signs.set(name, markup);
    music.push(
      systemMarkup(
        { parts: sheet.parts, balance, entries, changes },
        system,
        barsOf[index] ?? [],
        positions,
        (shown[index] ?? []).map((part) => ({ part, ...(slices[part]?.[index] ?? nothing) })),
      ),
    );
  }
  const player = pagePlayer(sheet, sound);
  const [styles, scripts] = [
    [style, ...player.styles],
    [script, ...player.scripts],
  ];
  const policy = `default-src 'none'; style-src ${hashesOf(styles)}; script-src ${hashesOf(scripts)}`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark">
<title>${plain(sheet.title)}</title>
${styles.map((text) => `<style>${text}</style>`).join('')}
</head>
<body class="${paperFor(music)}">
<header><h1>${plain(sheet.title)}</h1><p>${summary(sheet)}</p>${contents(sheet)}</header>
<main>
${overviewMarkup(sheet, bars)}
${legendMarkup(sheet, bars)}
<svg class="signs" aria-hidden="true"><defs>${signsOf(signs)}</defs><circle id="ring" class="ring" r="${ringRadius}"/></svg>
<div class="music" id="music">
${music.map(({ markup }) => markup).join('\n')}
</div>
${remarksMarkup(sheet, bars)}
${partsMarkup(sheet)}
${lengthsMarkup(sheet)}
</main>
<aside id="why" aria-live="polite" aria-label="Why this note sounds as it does" hidden></aside>
<script type="application/json" id="notes">${jsonMarkup(notesData(sheet))}</script>
<script type="application/json" id="starts">${jsonMarkup(sheet.parts.map(({ notes }) => notes.map(({ tick }) => tick)))}</script>
${player.data}${scripts.map((text) => `<script>${text}</script>`).join('\n')}
</body>
</html>
`;
}

function changing(parts: Sheet['parts']): ReadonlySet<number> {
  return new Set(
    parts.flatMap(({ notes }, index) =>
      notes.some(({ articulation }) => articulation !== notes[0]?.articulation) ? [index] : [],
    ),
  );
}

const nothing: Slice = { notes: [], switches: [], runs: [] };

/** The first note of each part that is drawn: there the keyboard enters the part. */
function entriesOf(
  slices: readonly (readonly Slice[])[],
  { from, to }: Notation['drawn'],
): ReadonlySet<string> {
  return new Set(
    slices.flatMap((ofPart) => {
      const first = ofPart.slice(from, to).find(({ notes }) => notes.length > 0);
      return first?.notes[0]?.id ?? [];
    }),
  );
}

function barsBySystem(bars: readonly NotatedBar[]): readonly (readonly NotatedBar[])[] {
  const systems: NotatedBar[][] = [];
  for (const bar of bars) {
    const open = systems[bar.system];
    if (open) open.push(bar);
    else systems[bar.system] = [bar];
  }
  return systems;
}

function hashesOf(texts: readonly string[]): string {
  return texts.map((text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`).join(' ');
}

function summary(sheet: Sheet): string {
  const { source, harmony } = sheet;
  const { notes, switches } = countsOf(sheet);
  const keys = [...new Set(harmony.map(({ key }) => key.name))];
  const told = [
    source === '-' ? 'standard input' : source,
    plural(notes, 'note'),
    plural(switches, 'switch', 'switches'),
    ...(keys.length === 0 ? [] : [keys.slice(0, 6).join(', ')]),
  ];
  return told.map(plain).join(' · ');
}

/** Leads past the music, for those who go by keys. */
function contents({ remarks }: Sheet): string {
  const told = remarks.length === 0 ? '' : '<a href="#told">Warnings and observations</a>';
  return `<nav aria-label="On this page"><a href="#music">Music</a>${told}<a href="#parts">Parts</a></nav>`;
}

function signsOf(signs: ReadonlyMap<string, string>): string {
  return [...signs].map(([name, markup]) => `<g id="sign-${name}">${markup}</g>`).join('');
}
