declare module 'teoria' {
  interface Sounding {
    midi(): number;
  }
  const teoria: {
    /** Notes of a chord symbol, from the root up. */
    chord(symbol: string): { notes(): readonly Sounding[] };
  };
  export default teoria;
}
