const style = `
.otherwise { fill: none; stroke: #a02a12; stroke-width: 46; pointer-events: none; }
.otherwise.perhaps { stroke-dasharray: 90 70; }
@media (prefers-color-scheme: dark) { .otherwise { stroke: #ff9a80; } }
@media (forced-colors: active) { .otherwise { stroke: CanvasText; } }
@media print { .otherwise { display: none; } }`;

/** Lets a sheet have marks. */
export function prepare(sheet: Document): void {
  const view = sheet.defaultView as (Window & typeof globalThis) | null;
  if (!view) return;
  const marks = new view.CSSStyleSheet();
  marks.replaceSync(style);
  sheet.adoptedStyleSheets = [marks];
}

/**
 * Puts a frame around notes that are otherwise: whole where they have become so, broken where they would. Lists tell of
 * them in words.
 */
export function mark(sheet: Document, notes: readonly string[], kind: 'become' | 'perhaps'): void {
  for (const old of sheet.querySelectorAll(`.otherwise.${kind}`)) old.remove();
  for (const note of notes) {
    const head = sheet.querySelector(`[data-note="${CSS.escape(note)}"]`);
    if (!head) continue;
    const [x, y] = ['cx', 'cy'].map((name) => Number(head.getAttribute(name)));
    const reach = kind === 'become' ? 190 : 240;
    const frame = sheet.createElementNS('http://www.w3.org/2000/svg', 'path');
    frame.setAttribute('class', `otherwise ${kind}`);
    frame.setAttribute(
      'd',
      `M${(x ?? 0) - reach} ${(y ?? 0) - reach}h${2 * reach}v${2 * reach}h${-2 * reach}z`,
    );
    head.before(frame);
  }
}
