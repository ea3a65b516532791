import { mark, prepare } from './marks.js';
import { goTo, placeOn } from './place.js';

/** The sheet on the desk. */
export interface Paper {
  /** Shows the sheet of a number; the one before stays in sight until it is there, and the place is kept. */
  show(sheet: number): void;
  /** Marks the notes that have become otherwise, or would. */
  mark(notes: readonly string[], kind: 'become' | 'perhaps'): void;
  goToBar(bar: number): void;
}

/** Puts sheets into an element of the page. */
export function paperIn(room: Element): Paper {
  let shown: HTMLIFrameElement | undefined;
  let coming: HTMLIFrameElement | undefined;
  let number = 0;
  const marked = { become: [] as readonly string[], perhaps: [] as readonly string[] };
  const markAll = (sheet: Document) => {
    mark(sheet, marked.become, 'become');
    mark(sheet, marked.perhaps, 'perhaps');
  };
  const arrived = (frame: HTMLIFrameElement) => {
    const sheet = frame.contentDocument;
    // A newer one is on its way.
    if (frame !== coming || !sheet) return;
    const place = shown?.contentDocument ? placeOn(shown.contentDocument) : undefined;
    prepare(sheet);
    markAll(sheet);
    frame.classList.remove('waiting');
    frame.inert = false;
    if (place) goTo(sheet, place);
    shown?.remove();
    shown = frame;
    coming = undefined;
  };
  return {
    show(sheet) {
      if (sheet === number || sheet === 0) return;
      number = sheet;
      coming?.remove();
      const frame = document.createElement('iframe');
      frame.title = 'The sheet of the cue';
      frame.className = 'waiting';
      frame.inert = true;
      frame.src = `sheet/${sheet}`;
      frame.addEventListener('load', () => arrived(frame), { once: true });
      coming = frame;
      room.append(frame);
    },
    mark(notes, kind) {
      marked[kind] = notes;
      if (shown?.contentDocument && !coming) mark(shown.contentDocument, notes, kind);
    },
    goToBar(bar) {
      const view = shown?.contentWindow;
      if (!view) return;
      const address = new URL(view.location.href);
      address.hash = `bar-${bar}`;
      view.location.replace(address);
    },
  };
}
