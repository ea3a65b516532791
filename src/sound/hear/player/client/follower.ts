import { lineAt } from '../line.js';
import type { Drawn } from './anchors.js';

/** The line that goes along with the sound, and the shade on marked bars. */
export interface Follower {
  show(ms: number, endMs: number): void;
  hide(): void;
}

const svgNames = 'http://www.w3.org/2000/svg';

/** Draws a line over the systems; one that is out of sight is brought into view when the line comes to it. */
export function followerOf({ systems, anchors }: Drawn): Follower {
  const line = document.createElementNS(svgNames, 'path');
  line.setAttribute('class', 'heard-line');
  let shown = -1;
  return {
    show(ms, endMs) {
      const place = lineAt(anchors, ms, endMs, (system) => systems[system]?.viewBox.baseVal.width ?? 0);
      const svg = place && systems[place.system];
      if (!svg) return;
      const { height } = svg.viewBox.baseVal;
      line.setAttribute('d', `M${place.x.toFixed(1)} 0V${height}`);
      if (place.system === shown) return;
      shown = place.system;
      svg.append(line);
      const { top, bottom } = svg.getBoundingClientRect();
      if (top < 0 || bottom > innerHeight) svg.scrollIntoView({ block: 'nearest' });
    },
    hide() {
      shown = -1;
      line.remove();
    },
  };
}

/** Gives bars (`id="bar-12"`) a class, and takes it from all others. */
export function shadeBars(bars: readonly number[]): void {
  for (const shaded of document.querySelectorAll('.heard-again')) shaded.classList.remove('heard-again');
  for (const bar of bars) document.getElementById(`bar-${bar}`)?.classList.add('heard-again');
}
