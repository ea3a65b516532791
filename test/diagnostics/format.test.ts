import { describe, expect, it } from 'vitest';
import type { Diagnostic } from '../../src/diagnostics/diagnostic.js';
import { diagnosticJson, formatDiagnostic } from '../../src/diagnostics/format.js';

const at = { kind: 'text', file: 'maps/\u001b[2Jx.yaml', line: 12, column: 7 } as const;
const diagnostic: Diagnostic = {
  code: 'unknown-key',
  severity: 'error',
  place: at,
  message: 'the key "\u202eab" is <b>new</b>',
  hint: 'line\nbreak',
};

describe('showing a diagnostic', () => {
  it('gives the place, severity, code, what was found, and the hint on its own line', () => {
    const music = {
      kind: 'music',
      file: 'take.mid',
      track: 2,
      trackName: 'Horns',
      bar: 12,
      beat: 3,
      tick: 4567,
    } as const;
    expect(
      formatDiagnostic(
        { code: 'note-is-switch', severity: 'error', place: music, message: 'found', hint: 'try' },
        { color: false },
      ),
    ).toBe('take.mid, track 2 "Horns", bar 12 beat 3 (tick 4567): error [note-is-switch]: found\n    try');
    const bytes = { kind: 'bytes', file: '-', offset: 34 } as const;
    expect(
      formatDiagnostic(
        { code: 'midi-event', severity: 'warning', place: bytes, message: 'x' },
        { color: false },
      ),
    ).toBe('standard input, byte 34: warning [midi-event]: x');
    const smpte = { ...music, bar: null, beat: null };
    expect(
      formatDiagnostic({ code: 'no-notes', severity: 'error', place: smpte, message: 'x' }, { color: false }),
    ).toContain('"Horns", tick 4567:');
  });

  it('shows nothing from a file raw', () => {
    const text = formatDiagnostic(diagnostic, { color: false });
    expect(text).toBe(
      'maps/\\u{1b}[2Jx.yaml:12:7: error [unknown-key]: the key "\\u{202e}ab" is <b>new</b>\n    line\\u{a}break',
    );
  });

  it('colours only the severity, and only where told to', () => {
    expect(formatDiagnostic(diagnostic, { color: true }).split('\u001b')).toHaveLength(3);
  });

  it('keeps the fields of the place in JSON', () => {
    expect(diagnosticJson(diagnostic)).toEqual({
      code: 'unknown-key',
      severity: 'error',
      message: diagnostic.message,
      hint: 'line\nbreak',
      file: at.file,
      line: 12,
      column: 7,
    });
  });
});
