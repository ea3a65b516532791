import { dirname, relative, resolve, sep } from 'node:path';
import { compareArticulations, type Decided, movedNotes } from '../../compare/index.js';
import {
  type Cue,
  type CueMaterial,
  cueTextWithMap,
  type Located,
  type MapOwner,
  readCue,
  strayPath,
} from '../../cue/index.js';
import {
  type Diagnostic,
  diagnostic,
  escapeText,
  isError,
  nearest,
  type Outcome,
  quoted,
} from '../../diagnostics/index.js';
import { type MovedPart, meaningLost, movedJson, movedText } from '../../report/index.js';
import { type CommonOptions, limits, show, status } from '../context.js';
import { chosenParts, loadCueMaps, loadMaterial } from '../cue-files.js';
import { decidedCue } from '../cue-parts.js';
import { putOutputs } from '../files/put.js';
import { readInput } from '../files/read.js';
import { exit, type Io, UsageError } from '../io.js';
import { jsonOf, printJson } from '../json.js';

export interface MoveOptions extends CommonOptions {
  /** The name of a part. */
  readonly part?: string;
  /** The name of a layer of that part, which is moved in its place. */
  readonly layer?: string;
  /** The map that is to play it. */
  readonly to?: string;
  /** Put the map into the cue. */
  readonly write?: boolean;
}

/** What is moved where. */
interface Move {
  /** The cue as it is. */
  readonly cue: Cue;
  readonly owner: MapOwner;
  readonly part: string;
  readonly layer?: string;
  /** The map by its path from the cue's folder. */
  readonly to: Located;
}

/**
 * `keyslip move`: says what becomes of a part of a cue in another library, and puts the library's map into the cue where
 * that is asked and nothing is wrong.
 */
export async function moveCommand(file: string, options: MoveOptions, io: Io): Promise<number> {
  refuseNonsense(file, options);
  const { value: bytes, diagnostics: ofFile } = await readInput(file, options.maxMap ?? limits.map, io);
  const read: Outcome<Cue> = bytes
    ? readCue(bytes, file, { maxBytes: options.maxMap ?? limits.map })
    : { value: undefined, diagnostics: ofFile };
  const move = read.value && moveOf(read.value, options);
  const { value: moved, diagnostics: found } = move
    ? await moveIn(move, options, io)
    : { value: undefined, diagnostics: [] };
  const diagnostics = [...read.diagnostics, ...found];
  const isSound = moved !== undefined && status(diagnostics, options) === exit.done;
  const edit = move && bytes && isSound && options.write ? write(file, bytes, move, io) : undefined;
  const all = [...diagnostics, ...(edit?.diagnostics ?? [])];
  if (options.json)
    printJson(
      {
        input: file,
        ...(moved ? movedJson(moved) : {}),
        written: edit?.value === true ? [file] : [],
        diagnostics: jsonOf(all),
      },
      io,
    );
  else if (moved && move && !options.quiet)
    io.out(`${movedText(moved)}\n${closing(file, move, edit?.value === true, isSound)}\n`);
  return show(all, options, io);
}

function refuseNonsense(file: string, { part, to, write: isWritten }: MoveOptions): void {
  if (part === undefined) throw new UsageError('say which part is to be moved: --part NAME');
  if (to === undefined) throw new UsageError('say which map is to play it: --to MAP.yaml');
  if (to === '-')
    throw new UsageError('a cue names its maps by their paths: --to needs a file, not standard input');
  if (isWritten && file === '-') throw new UsageError('--write needs a cue file, not standard input');
}

function closing(file: string, { cue, owner, to }: Move, isWritten: boolean, isSound: boolean): string {
  const { place } = mapOf(cue, owner) ?? to;
  const line = place.kind === 'text' ? `:${place.line}` : '';
  const where = `${escapeText(file)}${line}`;
  if (isWritten) return `Written: ${where} has ${escapeText(to.text)} now.`;
  if (mapOf(cue, owner)?.text === to.text)
    return `Nothing was written: ${where} has ${escapeText(to.text)} already.`;
  if (!isSound) return `Nothing was written: mend the map or the music first.`;
  return `Nothing was written: with --write, ${where} gets ${escapeText(to.text)}.`;
}

/** Finds what is to be moved. The path of the map is told from the cue's folder. */
function moveOf(cue: Cue, { part: name = '', layer: layerName, to = '' }: MoveOptions): Move {
  chosenParts(cue, [name]);
  const part = cue.parts.findIndex((one) => one.name === name);
  const layers = cue.parts[part]?.layers ?? [];
  const layer = layerName === undefined ? undefined : layers.findIndex((one) => one.name === layerName);
  if (layerName !== undefined && layer === -1) {
    const near = nearest(
      layerName,
      layers.map((one) => one.name),
    );
    const known = layers.map((one) => quoted(one.name)).join(', ');
    throw new UsageError(
      `the part ${quoted(name)} has no layer ${quoted(layerName)}`,
      near === undefined
        ? known === ''
          ? 'it has no layers'
          : `its layers are ${known}`
        : `did you mean ${quoted(near)}?`,
    );
  }
  const owner = { part, ...(layer === undefined ? {} : { layer }) };
  const place = mapOf(cue, owner)?.place ?? { kind: 'file', file: cue.file };
  const text = relative(resolve(dirname(cue.file)), resolve(to))
    .split(sep)
    .join('/');
  return {
    cue,
    owner,
    part: name,
    ...(layerName === undefined ? {} : { layer: layerName }),
    to: { text, place },
  };
}

/** The map that a part or a layer has in the cue; a layer without one has its part's. */
function mapOf(cue: Cue, { part, layer }: MapOwner): Located | undefined {
  const own = cue.parts[part];
  return layer === undefined ? own?.map : (own?.layers[layer]?.map ?? own?.map);
}

/** The cue's part alone, with all parts of its track: channels are shared among them. */
function around({ cue, owner }: Move): Cue {
  const wanted = cue.parts[owner.part];
  return { ...cue, parts: cue.parts.filter(({ track }) => track === wanted?.track) };
}

/** The same with the new map. */
function movedCue(cue: Cue, { part: name, layer: layerName, to }: Move): Cue {
  const parts = cue.parts.map((part) => {
    if (part.name !== name) return part;
    if (layerName === undefined) return { ...part, map: to };
    return {
      ...part,
      layers: part.layers.map((one) => (one.name === layerName ? { ...one, map: to } : one)),
    };
  });
  return { ...cue, parts };
}

/** Decides the part by both maps. Errors are those that the cue would have with the new one. */
async function moveIn(move: Move, options: MoveOptions, io: Io): Promise<Outcome<MovedPart>> {
  const stray = strayPath(move.to.text);
  if (stray !== undefined) return { value: undefined, diagnostics: [outside(move.to)] };
  const before = around(move);
  const after = movedCue(before, move);
  const { value: old, diagnostics: ofOld } = await loadMaterial(before, options, io);
  const { value: maps, diagnostics: ofMaps } = await loadCueMaps(after, options, io);
  const known = new Set(ofOld.map((one) => JSON.stringify(one)));
  const ofFiles = [...ofOld, ...ofMaps.filter((one) => !known.has(JSON.stringify(one)))];
  if (!old || !maps) return { value: undefined, diagnostics: ofFiles };
  const was = decided(before, old, move);
  const is = decided(after, { song: old.song, maps }, move);
  const [a, b] = [was.parts[0]?.map, is.parts[0]?.map];
  // What is wrong with the old library is over once the part is moved, as long as it can be told what becomes of it.
  if (!a || !b)
    return { value: undefined, diagnostics: [...ofFiles, ...(a ? [] : was.diagnostics), ...is.diagnostics] };
  const moved: MovedPart = {
    part: move.part,
    ...(move.layer === undefined ? {} : { layer: move.layer }),
    a,
    b,
    ...movedNotes(was.parts, is.parts),
    articulations: compareArticulations(a, b),
  };
  const used = new Set(moved.moved.map(({ from }) => from));
  const lost = moved.articulations.becomes?.filter(({ from, to }) => to === null && used.has(from)) ?? [];
  return {
    value: moved,
    diagnostics: [...ofFiles, ...is.diagnostics, ...lost.map(({ from }) => meaningLost(from, a, b))],
  };
}

/** What a cue's part, or layer, is decided to, by channel. */
function decided(
  cue: Cue,
  material: CueMaterial,
  { part, layer }: Move,
): { readonly parts: readonly Decided[]; readonly diagnostics: readonly Diagnostic[] } {
  const { parts, diagnostics } = decidedCue(cue, material);
  const isMoved = (one: (typeof parts)[number]) => one.of === part && one.layer === layer;
  return { parts: parts.filter(isMoved).map((one) => one.part), diagnostics };
}

function write(file: string, bytes: Uint8Array, { owner, to }: Move, io: Io): Outcome<boolean> {
  const before = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
  const after = cueTextWithMap(before, owner, to.text);
  if ('refused' in after) return { value: false, diagnostics: [notMoved(to)] };
  if (after.text === before) return { value: false, diagnostics: [] };
  const failures = putOutputs([{ path: file, content: after.text }], io);
  return { value: !failures.some(isError), diagnostics: failures };
}

function outside({ text, place }: Located): Diagnostic {
  return diagnostic(
    'path-outside',
    place,
    `the map ${quoted(text)} does not stand below the folder of the cue`,
    'put the map below that folder, so that the cue can be taken elsewhere with all that it needs',
  );
}

function notMoved({ text, place }: Located): Diagnostic {
  return diagnostic(
    'not-moved',
    place,
    `${quoted(text)} cannot be put here without changing something else in the file`,
    'an anchor, an alias or a merge key may stand there: write it there yourself',
  );
}
