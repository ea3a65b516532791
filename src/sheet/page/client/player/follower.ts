import { type BarTimes, lineAt } from '../../../player/index.js';
import type { Drawn } from './anchors.js';

/** The line that goes along with the sound. */
export interface Follower {
  show(ms: number, endMs: number): void;
  hide(): void;
}

const svgNames = 'http://www.w3.org/2000/svg';

/** So much of a system's window is kept free before the line, where a system is wider than the window. */
const ahead = 0.15;

/** Draws a line over the systems; one that is out of sight is brought into view when the line comes to it. */
export function followerOf({ systems, anchors }: Drawn): Follower {
  const line = document.createElementNS(svgNames, 'path');
  line.setAttribute('class', 'heard-line');
  let shown = -1;
  return {
    show(ms, endMs) {
      const place = lineAt(anchors, ms, endMs, (system) => systems[system]?.right ?? 0);
      const svg = place && systems[place.system]?.svg;
      if (!svg) return;
      const { y, height } = svg.viewBox.baseVal;
      line.setAttribute('d', `M${place.x.toFixed(1)} ${y}v${height}`);
      if (place.system !== shown) {
        shown = place.system;
        svg.append(line);
        svg.scrollIntoView({ block: 'nearest', inline: 'nearest' });
      }
      keepSideways(svg, place.x);
    },
    hide() {
      shown = -1;
      line.remove();
    },
  };
}

/** A system that is wider than the window is moved sideways when the line leaves what is seen of it. */
function keepSideways(svg: SVGSVGElement, x: number): void {
  const frame = svg.parentElement;
  if (!frame || frame.scrollWidth <= frame.clientWidth) return;
  const { x: left, width } = svg.viewBox.baseVal;
  const at = ((x - left) / width) * svg.clientWidth + svg.getBoundingClientRect().left;
  const from = frame.getBoundingClientRect().left;
  if (at < from || at > from + frame.clientWidth * (1 - ahead))
    frame.scrollLeft += at - from - frame.clientWidth * ahead;
}

/** Shades bars (`id="bar-12"`; one of several that stand as one measure by that measure), and no others. */
export function shadeBars(bars: readonly BarTimes[]): void {
  for (const shaded of document.querySelectorAll('.heard-again')) shaded.classList.remove('heard-again');
  for (const { bar } of bars) {
    let drawn = bar;
    while (drawn > 1 && !document.getElementById(`bar-${drawn}`)) drawn -= 1;
    document.getElementById(`bar-${drawn}`)?.classList.add('heard-again');
  }
}
