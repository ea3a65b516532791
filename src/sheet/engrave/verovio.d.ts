import 'verovio/esm';

// What the package exports and its types leave out.
declare module 'verovio/esm' {
  export const LOG_OFF: 0;
  export function enableLog(level: number, module: import('verovio').VerovioModule): void;
}
