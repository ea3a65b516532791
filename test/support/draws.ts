/** How many cases to draw of as many as a thorough run would: all of them where KEYSLIP_RUNS asks for 50 or more. */
export function draws(thorough: number): number {
  const share = Math.min(1, Number(process.env.KEYSLIP_RUNS ?? 25) / 50);
  return Math.max(3, Math.ceil(thorough * share));
}
