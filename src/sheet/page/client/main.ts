import { follow } from './follow.js';
import { headAt } from './head-at.js';
import { type Move, moveFrom } from './moves.js';
import { takeRing } from './ring.js';

/** What the page has of its notes: for each part, for each note, a heading and lines. */
type Told = readonly (readonly (readonly string[])[])[];

/** Data of the page, read when it is first asked for: of a large score it is some megabytes. */
function lazily<T>(selector: string): () => T {
  let known: T | undefined;
  return () => {
    known ??= JSON.parse(document.querySelector(selector)?.textContent ?? '[]') as T;
    return known;
  };
}

const told = lazily<Told>('#notes');
const starts = lazily<readonly (readonly number[])[]>('#starts');
const panel = document.querySelector('#why');
const ring = takeRing();
let shown: Element | undefined;
/** A note that was clicked or reached by key stays until another is. */
let isPinned = false;

/** `n3-17` is the note with index 17 of the part with index 3. */
function addressOf(head: Element): { readonly part: number; readonly note: number } {
  const [part = 0, note = 0] = (head.getAttribute('data-note') ?? '').slice(1).split('-').map(Number);
  return { part, note };
}

function show(head: Element): void {
  const { part, note } = addressOf(head);
  const [heading = '', articulation = '', ...lines] = told()[part]?.[note] ?? [];
  shown?.removeAttribute('aria-describedby');
  shown = head;
  ring.around(head);
  if (!panel) return;
  const title = document.createElement('strong');
  title.textContent = heading;
  const name = document.createElement('em');
  name.textContent = articulation;
  const list = document.createElement('ul');
  for (const line of lines) {
    const item = document.createElement('li');
    item.textContent = line;
    list.append(item);
  }
  panel.replaceChildren(title, ' ', name, list);
  panel.removeAttribute('hidden');
  head.setAttribute('aria-describedby', panel.id);
  keepFree(panel.getBoundingClientRect().height);
}

/** So much at the foot of the window is not used for what is scrolled into view. Unit: CSS px. */
function keepFree(height: number): void {
  document.documentElement.style.setProperty('--panel', `${Math.ceil(height)}px`);
}

function hide(): void {
  shown?.removeAttribute('aria-describedby');
  shown = undefined;
  ring.remove();
  isPinned = false;
  panel?.setAttribute('hidden', '');
  keepFree(0);
}

function reach(head: Element): void {
  isPinned = true;
  show(head);
  follow(head);
}

document.addEventListener('pointermove', (event) => {
  if (isPinned) return;
  const head = headAt(event);
  if (head && head !== shown) show(head);
});
document.addEventListener('click', (event) => {
  if (event.target instanceof Node && panel?.contains(event.target)) return;
  const head = headAt(event);
  if (head) reach(head);
  else hide();
});
document.addEventListener('focusin', ({ target }) => {
  if (target instanceof Element && target.hasAttribute('data-note')) {
    isPinned = true;
    show(target);
    // The browser has moved it into view already, when the panel was not there yet.
    target.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  }
});

const keys: Readonly<Record<string, Move>> = {
  ArrowRight: 'next',
  ArrowLeft: 'previous',
  ArrowDown: 'below',
  ArrowUp: 'above',
  Home: 'first',
  End: 'last',
};
document.addEventListener('keydown', (event) => {
  if (event.key === 'Escape') return hide();
  const move = keys[event.key];
  const from = document.activeElement;
  if (!move || !from?.hasAttribute('data-note') || event.altKey || event.ctrlKey || event.metaKey) return;
  event.preventDefault();
  const counts = starts().map((ticks) => ticks.length);
  const { part, note } = moveFrom(addressOf(from), move, counts, starts());
  const head = document.querySelector(`[data-note="n${part}-${note}"]`);
  if (head) reach(head);
});
