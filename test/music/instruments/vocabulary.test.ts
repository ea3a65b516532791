import { describe, expect, it } from 'vitest';
import { instrumentOf } from '../../../src/music/instruments/vocabulary.js';

describe('instrumentOf', () => {
  // names of the trade, common practice, no source
  it.each([
    ['piccolo', ['Piccolo', 'Ottavino', 'Petite flûte', 'Flauto piccolo']],
    ['flute', ['2 Flutes', 'Flauto I', 'Flöten', 'Flûte', 'Flu\u0302te']],
    ['alto flute', ['Alto Flute', 'Altflöte', 'Flauto contralto']],
    ['oboe', ['Oboe 1', 'Oboi', 'Oboen', 'Hautbois']],
    ['English horn', ['English Horn', 'Corno inglese', 'Englischhorn', 'Cor anglais']],
    ['clarinet', ['Clarinet in A', 'Clarinetti', 'Klarinette', 'Clarinettes']],
    ['bass clarinet', ['Bass Clarinet', 'Clarinetto basso', 'Bassklarinette', 'Clarinette basse']],
    ['bassoon', ['Bassoons a 2', 'Fagotti', 'Fagott', 'Basson']],
    ['contrabassoon', ['Contrabassoon', 'Controfagotto', 'Kontrafagott', 'Contrebasson']],
    ['horn', ['4 Horns', 'Corni', 'Hörner', 'Cors', 'Horn in F']],
    ['trumpet', ['Trumpets', 'Trombe', 'Trompete', 'Trompettes', 'Tromba']],
    ['trombone', ['Trombones', 'Tromboni', 'Posaunen', 'Tenor Trombone']],
    ['bass trombone', ['Bass Trombone', 'Trombone basso', 'Bassposaune']],
    ['tuba', ['Tuba', 'Basstuba', 'Tube']],
    ['timpani', ['Timpani', 'Pauken', 'Timbales']],
    ['harp', ['Harp', 'Arpa', 'Harfe', 'Harpe']],
    ['violin', ['Violins I', 'Violini II', 'Violine', 'Violons', '1. Geige']],
    ['viola', ['Violas', 'Viole', 'Bratschen', 'Altos']],
    ['cello', ['Celli', 'Violoncello', 'Violoncelle', 'Cellos']],
    ['double bass', ['Double Basses', 'Contrabbassi', 'Kontrabässe', 'Contrebasses', 'Basses']],
    ['soprano', ['Soprano', 'Choir Sopranos', 'Sopran']],
    ['alto', ['Choir Altos', 'Contralto']],
    ['tenor', ['Tenors', 'Tenöre', 'Choir Tenor']],
    ['bass', ['Choir Basses', 'Bass voices']],
  ] as const)('knows the %s by its name', (instrument, names) => {
    expect(names.map((name) => [name, instrumentOf(name)])).toEqual(names.map((name) => [name, instrument]));
  });

  // General MIDI level 1 sound set, counted from 1 as its table prints it (from memory)
  it.each([
    [41, 'violin'],
    [42, 'viola'],
    [43, 'cello'],
    [44, 'double bass'],
    [47, 'harp'],
    [48, 'timpani'],
    [57, 'trumpet'],
    [58, 'trombone'],
    [59, 'tuba'],
    [60, 'trumpet'],
    [61, 'horn'],
    [69, 'oboe'],
    [70, 'English horn'],
    [71, 'bassoon'],
    [72, 'clarinet'],
    [73, 'piccolo'],
    [74, 'flute'],
  ] as const)('knows program %i', (number, instrument) => {
    expect(instrumentOf('Staff 3', number - 1)).toBe(instrument);
    expect(instrumentOf('Oboe', number - 1)).toBe('oboe');
  });

  it('leaves what it does not know', () => {
    const names = [
      '',
      'Staff 3',
      'Strings',
      'Choir',
      'Bass',
      'Alto Sax',
      'Tenor drum',
      'Bass flute',
      'Basset horn',
    ];
    expect(names.filter((name) => instrumentOf(name) !== undefined)).toEqual([]);
    expect(instrumentOf('Soprano Sax', 73)).toBeUndefined();
    expect(instrumentOf('Pad', 48)).toBeUndefined();
  });
});
