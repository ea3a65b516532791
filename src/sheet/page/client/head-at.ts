/** The head that is pointed at: of those in reach, the one whose middle is nearest. */
export function headAt({ clientX, clientY }: MouseEvent): Element | undefined {
  let nearest: Element | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const element of document.elementsFromPoint(clientX, clientY)) {
    if (!element.hasAttribute('data-note')) continue;
    const { x, y, width, height } = element.getBoundingClientRect();
    const distance = Math.hypot(clientX - x - width / 2, clientY - y - height / 2);
    if (distance >= least) continue;
    nearest = element;
    least = distance;
  }
  return nearest;
}
