import { diagnostic } from '../../../src/diagnostics/index.js';
import type { Findings } from '../../../src/report/index.js';

/** What was found in four files, with every sign that a format has to escape. */
export const findings: Findings = {
  command: 'check',
  version: '1.2.3',
  isStrict: false,
  files: [
    { file: 'maps/in order.yaml', diagnostics: [] },
    {
      file: 'maps/a,b:50%.yaml',
      diagnostics: [
        diagnostic(
          'unknown-key',
          { kind: 'text', file: './maps/a,b 50%.yaml', line: 3, column: 5 },
          'it is "100%" <wrong> & \u001b[31m, says\r%0A',
          'right would be: a\nb',
        ),
        diagnostic('dead-rule', { kind: 'text', file: ':maps/b.yaml', line: 9, column: 1 }, 'it never fires'),
      ],
    },
    {
      file: '/abs/take.mid',
      diagnostics: [
        diagnostic('midi-event', { kind: 'bytes', file: '/abs/take.mid', offset: 20 }, 'no event'),
        diagnostic(
          'note-out-of-range',
          {
            kind: 'music',
            file: 'take.mid',
            track: 2,
            trackName: 'Horns "I"',
            bar: 3,
            beat: 1,
            tick: 99,
          },
          'too high',
        ),
      ],
    },
    {
      file: 'origin/main',
      diagnostics: [diagnostic('history-cut', { kind: 'file', file: 'origin/main' }, 'the clone is shallow')],
    },
  ],
};

export const nothing: Findings = { ...findings, files: [] };
