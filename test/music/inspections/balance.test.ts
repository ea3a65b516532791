import { describe, expect, it } from 'vitest';
import { partsOf } from '../../../src/compile/analyse/index.js';
import { balanceByBar, balanceText } from '../../../src/music/inspections/balance.js';
import { sectionOf } from '../../../src/music/inspections/sections.js';
import { controllerAt, songOf, type Timed, trackOf } from '../../support/song.js';

const line = (pitch: number, velocity: number) =>
  Array.from({ length: 8 }, (_, beat) => ({ tick: beat * 480, end: beat * 480 + 400, pitch, velocity }));

function balance(
  tracks: readonly (readonly [name: string, pitch: number, velocity: number, others?: readonly Timed[]])[],
) {
  const song = songOf(
    tracks.map(([name, pitch, velocity, others = []]) => trackOf(line(pitch, velocity), others, name)),
  );
  const sections = song.tracks.flatMap((track) =>
    partsOf(track).flatMap((part) => sectionOf(track, part) ?? []),
  );
  return balanceByBar(song, sections);
}

/** MusicXML takes forte for velocity 90 (from memory); piano lies three marks of 15 below it. */
const forte = 90;
const piano = 45;

describe('balance', () => {
  it('four horns and two trumpets are equal in forte (Rimsky-Korsakov, Principles of Orchestration, ch. I)', () => {
    const [bar] = balance([
      ['4 Horns', 55, forte],
      ['2 Trumpets', 70, forte],
    ]);
    const [horns, trumpets] = bar?.sections ?? [];
    expect(horns?.loudness).toBeCloseTo(trumpets?.loudness ?? 0, 6);
    expect(bar?.covered).toEqual([]);
  });

  it('in piano the same horns count double the trumpets, and cover them', () => {
    const bars = balance([
      ['4 Horns', 55, piano],
      ['2 Trumpets', 70, piano],
    ]);
    const [horns, trumpets] = bars[0]?.sections ?? [];
    expect((horns?.loudness ?? 0) - (trumpets?.loudness ?? 0)).toBeCloseTo(10 * Math.log10(2), 6);
    expect(balanceText(bars)).toContain(
      'bars 1–2: 2 Trumpets covered by 4 Horns (3 dB stronger; −3 dB on the latter would mend it)',
    );
  });

  it('reckons with a note that is held for weeks in as many bars as music has', () => {
    const held = [{ tick: 0, end: 0x0fffffff, pitch: 60, velocity: forte }];
    const song = songOf(
      ['Horns', 'Trumpets'].map((name) => trackOf(held, [], name)),
      { ppq: 3 },
    );
    const sections = song.tracks.flatMap((track) =>
      partsOf(track).flatMap((part) => sectionOf(track, part) ?? []),
    );
    expect(sections).toHaveLength(2);
    expect(balanceByBar(song, sections)).toHaveLength(20_000);
  });

  it('goes by the recorded dynamics where there are any', () => {
    const swell = [0, 480, 960].map((tick) => controllerAt(tick, 1, piano));
    const [bar] = balance([
      ['4 Horns', 55, 120, swell],
      ['2 Trumpets', 70, piano],
    ]);
    expect(bar?.sections[0]?.level).toBe(2);
  });
});

describe('sections', () => {
  const kindOf = (name: string, others: readonly Timed[] = []) => {
    const [track] = songOf([trackOf(line(60, 80), others, name)]).tracks;
    return track && sectionOf(track, { track: 1, trackName: name, channel: 0 });
  };
  it('are known by the names of their tracks', () => {
    expect(
      ['Corni a 4', 'Trombones', 'English Horn', 'Violins I', 'Tuba', 'Flöten', 'Trompete'].map(
        (name) => kindOf(name)?.kind,
      ),
    ).toEqual(['horn', 'trombone', 'woodwind', 'strings', 'tuba', 'woodwind', 'trumpet']);
    expect([
      kindOf('Corni a 4')?.players,
      kindOf('3 Trumpets')?.players,
      kindOf('Violas')?.players,
      kindOf('Oboe')?.players,
    ]).toEqual([4, 3, 8, 1]);
  });
  it('or by their program in the General MIDI sound set', () => {
    const program: Timed = {
      tick: 0,
      event: { type: 'programChange', channel: 0, programNumber: 60 } as Timed['event'],
    };
    expect(kindOf('Staff 3', [program])?.kind).toBe('horn');
    expect(kindOf('Staff 3')).toBeUndefined();
  });
});
