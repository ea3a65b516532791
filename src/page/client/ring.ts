/** The ring around the note that is told of. */
export interface Ring {
  around(head: Element): void;
  remove(): void;
}

/** About the width of a head and a half, in the units of a system. */
const radius = '150';

export function makeRing(): Ring {
  const circle = document.createElementNS('http://www.w3.org/2000/svg', 'circle');
  circle.setAttribute('class', 'ring');
  circle.setAttribute('r', radius);
  return {
    around(head) {
      for (const name of ['cx', 'cy']) circle.setAttribute(name, head.getAttribute(name) ?? '0');
      head.after(circle);
    },
    remove: () => circle.remove(),
  };
}
