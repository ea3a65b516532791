/** What happens at a frame of the sound. */
export type Message = { readonly frame: number; readonly sound: number } & (
  | { readonly kind: 'off'; readonly key: number }
  | { readonly kind: 'controller'; readonly controller: number; readonly value: number }
  /** Controller 11 in 14 bits, 0–16383. */
  | { readonly kind: 'expression'; readonly value: number }
  /** From −1, hard left, to 1. */
  | { readonly kind: 'pan'; readonly seat: number }
  /** 0–16383. */
  | { readonly kind: 'bend'; readonly value: number }
  | { readonly kind: 'on'; readonly key: number; readonly velocity: number }
);

/** At one frame notes end first, then values are set, then notes begin. */
const order = { off: 0, controller: 1, expression: 1, pan: 1, bend: 1, on: 2 } as const;

/** Messages in the order in which they happen; those at one place keep the order that they have. */
export function inOrder(messages: readonly Message[]): readonly Message[] {
  return [...messages].sort((a, b) => a.frame - b.frame || order[a.kind] - order[b.kind]);
}
