import { describe, expect, it } from 'vitest';
import { learn, reportText } from '../../src/learn/index.js';
import { inventNotes, random } from './invented.js';
import { labelled } from './labelled.js';

const words = { pitchName: String, safe: (text: string) => text.replaceAll('\u001b', '?') };

describe('reportText', () => {
  it('says each rule, what it decides and gets wrong, and the accuracies that were measured', () => {
    const { notes } = labelled(4, 300, 5, { noise: 0.1 });
    const learned = learn(notes);
    const text = reportText(learned, notes, words);
    learned.rules.forEach(({ decides, wrong }, index) => {
      expect(text).toMatch(
        new RegExp(`^ {2}${index + 1}\\. .*decides ${decides} notes?, ${wrong} of them otherwise$`, 'mu'),
      );
    });
    expect(text).toContain(`right: ${(learned.accuracy.ladder * 100).toFixed(1)} %`);
    expect(text).toContain(
      `commonest articulation alone: ${(learned.accuracy.commonest * 100).toFixed(1)} %`,
    );
    expect(text).toContain('exceptions: ');
    expect(text).not.toContain('guess');
  });

  it('asks whether a switch was forgotten, by bar.beat', () => {
    const { notes } = labelled(2, 300, 4, { forgotten: 0.25 });
    const text = reportText(learn(notes, { steadiness: false }), notes, words);
    expect(text).toMatch(/\d+\.\d+(\.\d+)?–\d+\.\d+.*: switch forgotten\?/u);
  });

  it('says that it is a guess, and what is not learnable', () => {
    const { notes } = labelled(3, 90, 3);
    const text = reportText(learn(notes), notes, words);
    expect(text).toContain('this is a guess');
    expect(text).toContain('never sounds, not learnable');
  });

  it('shows no control characters of names', () => {
    const { notes } = labelled(3, 120, 3, { noise: 0.1 });
    const named = { ...notes, pieces: notes.pieces.map((piece) => ({ ...piece, name: '\u001b[31mred' })) };
    expect(reportText(learn(named, { steadiness: false }), named, words)).not.toContain('\u001b');
  });

  it('says where there is nothing to learn', () => {
    const notes = inventNotes(40, random(1));
    expect(reportText(learn(notes), notes, words)).toContain('no articulation has notes enough');
  });
});
