/** What share of a thorough run's cases to try: all of them where KEYSLIP_RUNS asks for 50 or more, as CI does. */
const share = Math.min(1, Number(process.env.KEYSLIP_RUNS) / 50);

/** How many cases to draw of as many as a thorough run would. */
export function draws(thorough: number): number {
  return Math.max(3, Math.ceil(thorough * share));
}

/** How large an input is to be whose thorough size is there to be large: a tenth of it, or all. */
export function size(thorough: number): number {
  return share < 1 ? Math.ceil(thorough / 10) : thorough;
}

/** Some of the cases of a thorough run, evenly chosen; the first is among them. */
export function some<T>(thorough: readonly T[]): readonly T[] {
  const step = Math.max(1, Math.round(1 / share));
  return thorough.filter((_, index) => index % step === 0);
}
