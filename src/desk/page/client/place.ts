/** Where somebody is on a sheet: what stands at the top of the window, and the note that is told of. */
export interface SheetPlace {
  readonly bar: number;
  /** How far below the top of the window that bar's system begins; above it, if negative. Unit: CSS px. */
  readonly top: number;
  /** How far that system is moved sideways. Unit: CSS px. */
  readonly left: number;
  /** The note's name up to its articulation, which may be another now. */
  readonly note?: string;
  readonly isFocused: boolean;
}

/** The place on a sheet; undefined where nothing is on it. */
export function placeOn(sheet: Document): SheetPlace | undefined {
  const systems = [...sheet.querySelectorAll('.system')];
  const system = systems.find((one) => one.getBoundingClientRect().bottom > 0) ?? systems.at(-1);
  if (!system) return undefined;
  const note = noteOf(chosen(sheet));
  return {
    bar: barOf(system),
    top: system.getBoundingClientRect().top,
    left: system.scrollLeft,
    ...(note === undefined ? {} : { note }),
    isFocused: sheet.hasFocus() && sheet.activeElement?.hasAttribute('data-note') === true,
  };
}

/** Goes there on another sheet: to the same bar, else to the one before it. */
export function goTo(sheet: Document, { bar, top, left, note, isFocused }: SheetPlace): void {
  if (note !== undefined) choose(sheet, note, isFocused);
  const systems = [...sheet.querySelectorAll('.system')];
  const system = systems.findLast((one) => barOf(one) <= bar) ?? systems[0];
  if (!system) return;
  system.scrollLeft = left;
  keepAt(sheet, system, top);
}

/** Laid out is what has stood still for so long, and for so many frames, of which a busy machine draws few. Unit: ms. */
const settling = { length: 800, frames: 40 };
/** No longer than this is waited for it. Unit: ms. */
const patience = 10_000;

/** Keeps an element where it is wanted while what comes into sight is laid out; whoever goes elsewhere meanwhile is let. */
function keepAt(sheet: Document, element: Element, top: number): void {
  const view = sheet.defaultView;
  if (!view) return;
  const ended = new AbortController();
  const from = performance.now();
  let still = { since: from, frames: 0 };
  for (const event of ['wheel', 'pointerdown', 'keydown', 'touchstart', 'hashchange'])
    view.addEventListener(event, () => ended.abort(), { signal: ended.signal, passive: true });
  const step = () => {
    if (ended.signal.aborted) return;
    const by = element.getBoundingClientRect().top - top;
    const now = performance.now();
    if (Math.abs(by) < 0.5) still.frames += 1;
    else {
      view.scrollBy({ top: by, behavior: 'instant' });
      still = { since: now, frames: 0 };
    }
    const isSettled = now - still.since > settling.length && still.frames > settling.frames;
    if (isSettled || now - from > patience) ended.abort();
    else view.requestAnimationFrame(step);
  };
  step();
}

function barOf(system: Element): number {
  return Number(system.id.slice('system-'.length));
}

/** The note that has the keyboard, or else the one that is told of. */
function chosen(sheet: Document): Element | null {
  const { activeElement } = sheet;
  if (activeElement?.hasAttribute('data-note')) return activeElement;
  return sheet.querySelector('[data-note][aria-describedby]');
}

function noteOf(head: Element | null): string | undefined {
  const label = head?.getAttribute('aria-label');
  return label?.slice(0, label.lastIndexOf(', '));
}

/** Lets the sheet tell of the note again; it takes the keyboard only where it had it. */
function choose(sheet: Document, note: string, isFocused: boolean): void {
  const head = [...sheet.querySelectorAll<SVGElement>('[data-note]')].find((one) => noteOf(one) === note);
  if (!head) return;
  if (!isFocused) {
    head.dispatchEvent(new FocusEvent('focusin', { bubbles: true }));
    return;
  }
  head.setAttribute('tabindex', '0');
  head.focus({ preventScroll: true });
}
