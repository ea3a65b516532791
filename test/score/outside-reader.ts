// Verovio, an engraver, as an outside reader of scores: what it understands, it says in MEI.
import { parseMidi } from 'midi-file';
import { enableLog, LOG_OFF, VerovioToolkit } from 'verovio/esm';
import createVerovioModule from 'verovio/wasm';
import type { Performance } from '../../src/score/index.js';
import type {} from '../../src/sheet/engrave/verovio.js';

async function toolkit(): Promise<VerovioToolkit> {
  const module = await createVerovioModule();
  enableLog(LOG_OFF, module);
  return new VerovioToolkit(module);
}

/** @returns for a MusicXML text its MEI; undefined where the reader cannot read it */
export async function makeOutsideReader(): Promise<(xml: string) => string | undefined> {
  const reader = await toolkit();
  return (xml) => (reader.loadData(xml) ? reader.getMEI({}) : undefined);
}

/** @returns for a score its Standard MIDI File as the reader plays it, bar by bar; undefined where it cannot */
export async function makeOutsidePlayer(): Promise<(score: string) => Uint8Array | undefined> {
  const reader = await toolkit();
  return (score) => (reader.loadData(score) ? Buffer.from(reader.renderToMIDI(), 'base64') : undefined);
}

/** Pitches and onsets of all parts, in 48ths of a quarter, sorted. */
export function soundOf({ parts, ppq }: Performance): readonly string[] {
  return parts
    .flatMap(({ notes }) => notes.map(({ tick, pitch }) => `${Math.round((48 * tick) / ppq)}:${pitch}`))
    .sort();
}

/** The texts of all parts, with their places, sorted. */
export function marksOf({ parts, ppq }: Performance): readonly string[] {
  return parts
    .flatMap(({ texts }) => texts.map(({ tick, text }) => `${Math.round((48 * tick) / ppq)} ${text}`))
    .sort();
}

/** The same of a Standard MIDI File, as another program reads it. */
export function soundIn(bytes: Uint8Array): readonly string[] {
  const { header, tracks } = parseMidi(bytes);
  const all = tracks.flatMap((events) => {
    let tick = 0;
    return events.flatMap((event) => {
      tick += event.deltaTime;
      return event.type === 'noteOn' && event.velocity > 0
        ? [`${Math.round((48 * tick) / (header.ticksPerBeat ?? 1))}:${event.noteNumber}`]
        : [];
    });
  });
  return all.sort();
}
