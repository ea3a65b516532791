/** The ring around the note that is told of. */
export interface Ring {
  around(head: Element): void;
  remove(): void;
}

/** Takes the ring that the page has ready. */
export function takeRing(): Ring {
  const circle = document.querySelector('#ring');
  circle?.remove();
  return {
    around(head) {
      if (!circle) return;
      for (const name of ['cx', 'cy']) circle.setAttribute(name, head.getAttribute(name) ?? '0');
      head.after(circle);
    },
    remove: () => circle?.remove(),
  };
}
