import { parseMidi } from 'midi-file';
import { enableLogToBuffer, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';

/** What Verovio, as a reader of MEI that knows nothing of us, makes of a text. */
export interface ReadBack {
  /** All that it complained about. */
  readonly log: string;
  readonly pages: number;
  /** When a note or its continuation begins, in quarters from the start, by id. */
  readonly onsets: ReadonlyMap<string, number>;
  /** The MIDI pitches that it would play, each tied chain once, rising. */
  readonly played: readonly number[];
  pitchOf(id: string): number;
}

/** Starts Verovio with the options that a page of one system needs. */
export async function startEngraver(): Promise<(mei: string) => ReadBack> {
  const module = await createVerovioModule();
  enableLogToBuffer(true, module);
  const toolkit = new VerovioToolkit(module);
  toolkit.setOptions({
    breaks: 'encoded',
    pageWidth: 2400,
    adjustPageHeight: true,
    header: 'none',
    footer: 'none',
  });
  return (mei) => {
    const isRead = toolkit.loadData(mei);
    let log = isRead ? toolkit.getLog() : `not read: ${toolkit.getLog()}`;
    const pages = toolkit.getPageCount();
    for (let page = 1; page <= pages; page += 1) {
      toolkit.renderToSVG(page);
      log += toolkit.getLog();
    }
    const onsets = new Map<string, number>();
    for (const { on = [], qstamp } of toolkit.renderToTimemap({}))
      for (const id of on) onsets.set(id, qstamp);
    const midi = parseMidi(Buffer.from(toolkit.renderToMIDI(), 'base64'));
    const played = midi.tracks.flatMap((events) =>
      events.flatMap((event) => (event.type === 'noteOn' && event.velocity > 0 ? [event.noteNumber] : [])),
    );
    return {
      log,
      pages,
      onsets,
      played: played.sort((a, b) => a - b),
      pitchOf: (id) => toolkit.getMIDIValuesForElement(id).pitch,
    };
  };
}
