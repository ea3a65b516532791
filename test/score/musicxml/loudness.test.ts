import { describe, expect, it } from 'vitest';
import { direction, note, notes, partwise, played, texts } from '../written.js';

const velocities = (text: string) => played(text).parts[0]?.notes.map(({ velocity }) => velocity);
const dynamic = (name: string) => direction(`<dynamics><${name}/></dynamics>`);
const wedge = (type: string) => direction(`<wedge type="${type}"/>`);

/** The 26 named elements of `dynamics` in MusicXML 4.0 (schema/musicxml.xsd, read). */
const all = [
  ...['p', 'pp', 'ppp', 'pppp', 'ppppp', 'pppppp', 'f', 'ff', 'fff', 'ffff', 'fffff', 'ffffff', 'mp', 'mf'],
  ...['sf', 'sfp', 'sfpp', 'fp', 'rf', 'rfz', 'sfz', 'sffz', 'fz', 'n', 'pf', 'sfzp'],
];

describe('loudness', () => {
  it('forte is 90, as MusicXML has it; a percentage of a sound is of that', () => {
    expect(
      velocities(partwise([`${dynamic('f')}${notes('C4/4')}<sound dynamics="50"/>${notes('C4/4')}`])),
    ).toEqual([90, 45]);
  });

  it('every element of dynamics changes the note that it stands at, or what follows', () => {
    for (const name of all) {
      const [first, second] =
        velocities(
          partwise([`${dynamic('mp')}${notes('C4/4')}${dynamic(name)}${notes('C4/4 C4/4')}`]),
        )?.slice(1) ?? [];
      expect([name, first === 60 && second === 60]).toEqual([name, name === 'mp']);
    }
    expect(
      velocities(
        partwise([
          `${direction('<dynamics><other-dynamics>FF</other-dynamics></dynamics>')}${notes('C4/4')}`,
        ]),
      ),
    ).toEqual([105]);
  });

  it('louder marks are louder', () => {
    const rising = [
      'n',
      'pppppp',
      'ppppp',
      'pppp',
      'ppp',
      'pp',
      'p',
      'mp',
      'mf',
      'f',
      'ff',
      'fff',
      'ffff',
      'fffff',
      'ffffff',
    ];
    const got = rising.map((name) => velocities(partwise([`${dynamic(name)}${notes('C4/4')}`]))?.[0] ?? 0);
    expect(got).toEqual([...got].sort((a, b) => a - b));
    expect(new Set(got).size).toBe(rising.length);
  });

  it('fp is loud and then soft; sf is one note', () => {
    expect(
      velocities(partwise([`${dynamic('fp')}${notes('C4/4 C4/4')}${dynamic('sf')}${notes('C4/4 C4/4')}`])),
    ).toEqual([90, 45, 65, 45]);
  });

  it('a hairpin leads to the dynamic at its end, evenly, else one mark further', () => {
    const text = partwise([
      `${dynamic('p')}${wedge('crescendo')}${notes('C4/4 C4/4 C4/4')}${wedge('stop')}${dynamic('f')}${notes('C4/4')}`,
      `${wedge('diminuendo')}${notes('C4/8')}${wedge('stop')}${notes('C4/8')}`,
    ]);
    expect(velocities(text)).toEqual([45, 60, 75, 90, 90, 75]);
    expect(texts(text)).toEqual(['0 [p]', '0 [<]', '3 [f]', '4 [>]', '6 [mf]']);
  });

  it('cresc. leads to the next dynamic; one that lies the other way is sudden', () => {
    const words = direction('<words>cresc.</words>');
    expect(
      velocities(partwise([`${dynamic('p')}${words}${notes('C4/4 C4/4')}${dynamic('f')}${notes('C4/8')}`])),
    ).toEqual([45, 68, 90]);
    expect(
      velocities(partwise([`${dynamic('mf')}${words}${notes('C4/4 C4/4')}${dynamic('p')}${notes('C4/8')}`])),
    ).toEqual([75, 83, 45]);
  });

  it('an accent adds to what is in force', () => {
    const accent = '<notations><articulations><accent/></articulations></notations>';
    const [plain = 0, accented = 0] = velocities(partwise([`${notes('C4/4')}${note('C4/4', accent)}`])) ?? [];
    expect(accented).toBeGreaterThan(plain);
  });

  it('after a repeat it is what it was there', () => {
    const text = partwise([
      `${dynamic('p')}${notes('C4/16')}`,
      `<barline location="left"><repeat direction="forward"/></barline>${notes('C4/16')}`,
      `${dynamic('ff')}${notes('C4/16')}<barline><repeat direction="backward"/></barline>`,
    ]);
    expect(velocities(text)).toEqual([45, 45, 105, 45, 105]);
  });
});
