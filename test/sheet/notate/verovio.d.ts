import 'verovio/esm';

// What the package exports and its types leave out.
declare module 'verovio/esm' {
  export function enableLogToBuffer(value: boolean, module: import('verovio').VerovioModule): void;
}
