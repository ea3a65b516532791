import { describe, expect, it } from 'vitest';
import { contentText, empty } from '../../src/prove/content.js';
import { type Library, libraryOf } from '../../src/prove/library.js';
import { library } from './events.js';

const elements = (of: Library, name: string) =>
  of.sounds
    .get(name)
    ?.needs.map(
      ({ aspect, content }) => `${of.aspects[aspect]}: ${content === empty ? '' : contentText(content)}`,
    );
const covering = (of: Library, name: string) => {
  const sound = of.sounds.get(name);
  return sound && of.covering(sound).map((other) => other.name);
};

describe('what selects a sound', () => {
  it('stands in aspects: keys share one, controllers have one each, named aspects stand by themselves', () => {
    const of = libraryOf(
      library([
        'all: {switch: [{note: 3}, {controller: 20, value: 5}, {program: 7, bank: [1, 2]}, {note: 9, aspect: mute}]}',
        'other: {switch: [{note: 4}, {controller: 20, value: 6}, {program: 8}, {note: 10, aspect: mute}]}',
      ]),
      0,
    );
    expect(elements(of, 'all')).toEqual([
      'keys: key 3',
      'controller 20: controller 20 at 5',
      'program: program 7',
      'program, bank: bank 1 2',
      'aspect mute: key 9',
    ]);
    expect([...of.keyAspects].map(([key, all]) => [key, all.map((aspect) => of.aspects[aspect])])).toEqual([
      [3, ['keys']],
      [9, ['aspect mute']],
      [4, ['keys']],
      [10, ['aspect mute']],
    ]);
    expect(of.sounds.get('all')?.keys).toEqual(new Set([3, 9]));
  });

  it('is the part’s own channel where an articulation names none', () => {
    const of = libraryOf(library(['near: {}', 'far: {switch: {channel: 3}}']), 7);
    expect([...of.sounds.values()].map(({ channel }) => channel)).toEqual([7, 2]);
  });

  it('is silence of the plain momentary keys for a sound that has none', () => {
    const of = libraryOf(
      library(
        ['plain: {}', 'short: {switch: {note: 1}}', 'muted: {switch: {note: 2, aspect: mute}}'],
        '{notes: momentary}',
      ),
      0,
    );
    expect(elements(of, 'plain')).toEqual(['held keys: ']);
    expect(elements(of, 'short')).toEqual(['held keys: key 1']);
    expect(elements(of, 'muted')).toEqual(['held keys of mute: key 2', 'held keys: ']);
  });
});

describe('sounds that cover another', () => {
  it('need all that it needs, and more', () => {
    const of = libraryOf(
      library([
        'plain: {switch: {note: 1}}',
        'muted: {switch: [{note: 1}, {note: 9, aspect: mute}]}',
        'other: {switch: [{note: 2}, {note: 9, aspect: mute}]}',
        'far: {switch: [{note: 1}, {note: 9, aspect: mute}, {channel: 9}]}',
      ]),
      0,
    );
    expect(['plain', 'muted', 'other', 'far'].map((name) => covering(of, name))).toEqual([
      ['muted'],
      [],
      [],
      [],
    ]);
  });

  it('are all with a switch for one that has none', () => {
    const of = libraryOf(
      library(['plain: {}', 'short: {switch: {note: 1}}', 'long: {switch: {note: 2}}']),
      0,
    );
    expect(covering(of, 'plain')).toEqual(['short', 'long']);
  });
});
