import { expect, it } from 'vitest';
import type { Sheet } from '../../src/sheet/types.js';
import { withoutFolders } from '../../src/sheet/without-folders.js';
import { sheetNote, sheetPart } from './page/support.js';

const sheetWith = (folder: string): Sheet => ({
  title: 'T',
  source: `${folder}night/take.mid`,
  clock: {} as Sheet['clock'],
  endTick: 1,
  parts: [
    sheetPart({
      mapFile: `${folder}night/maps/horns.yaml`,
      notes: [sheetNote('n0-0', 0, { why: `${folder}night/maps/horns.yaml:76: held 130 ms` })],
    }),
  ],
  harmony: [],
  balance: [],
  remarks: [
    { kind: 'warning', sign: '▲1', text: `${folder}night/take.mid: odd`, hint: `see ${folder}night/x.yaml` },
  ],
});
const files = ({ source, parts }: Sheet) => [source, ...parts.map(({ mapFile }) => mapFile)];

it('leaves out folders of files that were named absolutely, and keeps what is below them', () => {
  for (const folder of ['/home/someone/', 'C:\\work\\']) {
    const sheet = sheetWith(folder);
    const short = withoutFolders(sheet, files(sheet));
    expect(JSON.stringify(short)).not.toContain(JSON.stringify(folder).slice(1, -1));
    expect(short.source).toBe('take.mid');
    expect(short.parts[0]?.mapFile).toBe('maps/horns.yaml');
    expect(short.parts[0]?.notes[0]?.why).toBe('maps/horns.yaml:76: held 130 ms');
    expect(short.remarks[0]).toMatchObject({ text: 'take.mid: odd', hint: 'see x.yaml' });
  }
});

it('leaves a sheet of relative names as it is', () => {
  const sheet = sheetWith('');
  expect(withoutFolders(sheet, files(sheet))).toBe(sheet);
});
