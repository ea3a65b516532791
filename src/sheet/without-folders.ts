import type { Sheet, SheetRemark } from './types.js';

/**
 * A sheet on which no file is named by its place on the disk that it was made on: folders of files that were named
 * absolutely are left out, in all that is said. A sheet may be handed on; who made it where is nobody's business.
 *
 * @param files all that may be named
 */
export function withoutFolders(sheet: Sheet, files: Iterable<string>): Sheet {
  const folders = foldersOf(files);
  if (folders.length === 0) return sheet;
  const short = (text: string) => folders.reduce((left, folder) => left.replaceAll(folder, ''), text);
  const remark = (one: SheetRemark): SheetRemark => ({
    ...one,
    text: short(one.text),
    ...(one.hint === undefined ? {} : { hint: short(one.hint) }),
  });
  return {
    ...sheet,
    source: short(sheet.source),
    parts: sheet.parts.map((part) => ({
      ...part,
      mapFile: short(part.mapFile),
      notes: part.notes.map((note) => ({ ...note, why: short(note.why) })),
    })),
    remarks: sheet.remarks.map(remark),
  };
}

/** Folders of absolute paths, with their last separator; the outermost first, so that what is in it keeps its order. */
function foldersOf(files: Iterable<string>): readonly string[] {
  const folders = new Set<string>();
  for (const file of files) {
    const [folder] = /^(?:[A-Za-z]:)?[\\/].*[\\/]/u.exec(file) ?? [];
    if (folder !== undefined) folders.add(folder);
  }
  return [...folders].sort((a, b) => a.length - b.length);
}
