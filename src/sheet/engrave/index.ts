// MEI becomes drawn systems, through verovio.
import type { Engraver } from './engraver.js';
import { readSystem } from './system.js';

export { engraversFor } from './again.js';
export type { Engraver } from './engraver.js';
export type { Point } from './points.js';
export type { EngravedSystem, Stave } from './system.js';

/** How the engraver lays music out. Unit of lengths: a tenth of a staff space is 1.8. */
const options = {
  breaks: 'encoded',
  header: 'none',
  footer: 'none',
  font: 'Leipzig',
  pageWidth: 2400,
  pageHeight: 100,
  adjustPageHeight: true,
  pageMarginLeft: 20,
  pageMarginRight: 20,
  // Room for the numbers of bars, which the page writes itself: the engraver's may stand in other texts.
  pageMarginTop: 45,
  pageMarginBottom: 20,
  spacingStaff: 11,
  minLastJustification: 0.6,
  svgViewBox: true,
  svgRemoveXlink: true,
  svgFormatRaw: true,
  // Musical signs in texts become plain characters: no page needs the font, which is most of its SVG.
  smuflTextFont: 'none',
  multiRestStyle: 'block',
  // The same input gives the same bytes.
  xmlIdSeed: 1,
} as const;

/**
 * Makes an engraver; it takes a moment (about 0.2 s), since the engraving library is compiled code.
 *
 * @throws where the library, which is an optional dependency, is not installed (ERR_MODULE_NOT_FOUND); or cannot read what it is given, which would be a mistake of this program
 */
export async function makeEngraver(): Promise<Engraver> {
  const { enableLog, LOG_OFF, VerovioToolkit } = await import('verovio/esm');
  const { default: createVerovioModule } = await import('verovio/wasm');
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  const toolkit = new VerovioToolkit(module);
  return (mei, from = 0, to = Number.POSITIVE_INFINITY) => {
    toolkit.setOptions(options);
    if (!toolkit.loadData(mei)) throw new Error('the engraver does not read this MEI');
    return Array.from({ length: Math.min(to, toolkit.getPageCount()) - from }, (_, page) =>
      readSystem(toolkit.renderToSVG(from + page + 1, false)),
    );
  };
}

let shared: Promise<Engraver> | undefined;

/**
 * The engraver of this process, made when it is first asked for: what one engraves does not depend on what it engraved
 * before. Where it could not read something it is given up, and the next is another.
 *
 * @throws as `makeEngraver` does
 */
export function sharedEngraver(): Promise<Engraver> {
  shared ??= givenUpAtFaults();
  return shared;
}

async function givenUpAtFaults(): Promise<Engraver> {
  const giveUp = (error: unknown): never => {
    shared = undefined;
    throw error;
  };
  const engrave = await makeEngraver().catch(giveUp);
  return (...words) => {
    try {
      return engrave(...words);
    } catch (error) {
      return giveUp(error);
    }
  };
}
