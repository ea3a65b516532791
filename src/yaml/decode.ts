import { type Diagnostic, diagnostic } from '../diagnostics/index.js';

/** Characters that YAML allows: YAML 1.2.2, section 5.1, c-printable. */
const notPrintable = /[^\t\n\r\u0020-\u007e\u0085\u00a0-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/u;

/** The text of a file in UTF-8, its line breaks made one (`\n`) and without a byte order mark; or what is wrong with it. */
export function decodeText(bytes: Uint8Array, file: string): string | Diagnostic {
  const good = validLength(bytes);
  if (good !== undefined) return notUtf8(bytes, good, file);
  const text = new TextDecoder('utf-8').decode(bytes).replace(/\r\n?/gu, '\n');
  const control = notPrintable.exec(text);
  if (!control) return text;
  const number = (control[0].codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
  return problem(
    file,
    text.slice(0, control.index),
    `there is a control character (U+${number})`,
    'take it out; no text needs it',
  );
}

function notUtf8(bytes: Uint8Array, good: number, file: string): Diagnostic {
  const [first, second] = bytes;
  const isUtf16 = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  const before = new TextDecoder('utf-8').decode(bytes.subarray(0, good), { stream: true });
  const message = isUtf16 ? 'the file is written in UTF-16' : 'there are bytes here that are no UTF-8 text';
  return problem(file, before.replace(/\r\n?/gu, '\n'), message, 'save the file as UTF-8');
}

/** How many bytes are UTF-8 before the first that is not; undefined where all are. */
function validLength(bytes: Uint8Array): number | undefined {
  const isText = (length: number, stream: boolean) => {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(bytes.subarray(0, length), { stream });
      return true;
    } catch {
      return false;
    }
  };
  if (isText(bytes.length, false)) return undefined;
  let low = 0;
  for (let high = bytes.length; low < high; ) {
    const middle = Math.ceil((low + high) / 2);
    if (isText(middle, true)) low = middle;
    else high = middle - 1;
  }
  return low;
}

function problem(file: string, before: string, message: string, hint: string): Diagnostic {
  const line = before.split('\n').length;
  const column = before.length - before.lastIndexOf('\n');
  return diagnostic('yaml-syntax', { kind: 'text', file, line, column }, message, hint);
}
