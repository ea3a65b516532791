/** Gives a note the keyboard, and brings it into view. */
export function follow(head: Element): void {
  for (const other of document.querySelectorAll('[data-note][tabindex="0"]'))
    if (other.getAttribute('data-note')?.split('-')[0] === head.getAttribute('data-note')?.split('-')[0])
      other.setAttribute('tabindex', '-1');
  head.setAttribute('tabindex', '0');
  if (head instanceof SVGElement) head.focus({ preventScroll: true });
  head.scrollIntoView({ block: 'nearest', inline: 'nearest' });
}
