import type { Change, Problem } from '../../state.js';

/** An element with a class and contents; texts are shown, never obeyed. */
export function made<K extends keyof HTMLElementTagNameMap>(
  name: K,
  className: string,
  ...contents: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(name);
  if (className !== '') element.className = className;
  element.append(...contents);
  return element;
}

/** So many bars of a change have a link. */
const mostLinks = 12;

/** A change as an item of a list, with links to its bars. */
export function changeItem({ part, said, why, bars }: Change, goToBar: (bar: number) => void): HTMLLIElement {
  const links = bars.slice(0, mostLinks).flatMap(({ from, to }, index) => {
    const link = made('a', '', from === to ? `${from}` : `${from}–${to}`);
    link.href = `#bar-${from}`;
    link.setAttribute('aria-label', from === to ? `bar ${from}` : `bars ${from}–${to}`);
    link.addEventListener('click', (event) => {
      event.preventDefault();
      goToBar(from);
    });
    return index === 0 ? [link] : [', ', link];
  });
  const word = bars.length === 1 && bars[0]?.from === bars[0]?.to ? ', bar ' : ', bars ';
  const more = bars.length > mostLinks ? [` and ${bars.length - mostLinks} more places`] : [];
  return made(
    'li',
    '',
    made('strong', '', part),
    `: ${said}`,
    ...(links.length === 0 ? [] : [word, ...links, ...more]),
    ...(why === undefined ? [] : [made('span', 'why', `the first: ${why}`)]),
  );
}

/** Something that is wrong, as an item of a list. */
export function problemItem({ text, hint }: Problem): HTMLLIElement {
  return made('li', '', text, ...(hint === undefined ? [] : [made('span', 'why', hint)]));
}
