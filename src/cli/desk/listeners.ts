import type { ServerResponse } from 'node:http';

/** So many pages are told at once. */
const mostPages = 16;
/** A page that lets so much wait is gone. Unit: bytes. */
const mostWaiting = 16 * 1024 * 1024;
/** How often something is sent, so that one notices who has gone. Unit: ms. */
const interval = 15_000;

/** Pages that are told of the state as it becomes otherwise, by Server-Sent Events. */
export interface Listeners {
  isFull(): boolean;
  /** @param state what it is told at once, as JSON */
  add(page: ServerResponse, state: string | undefined): void;
  tell(state: string): void;
  end(): void;
}

export function listeners(): Listeners {
  const pages = new Set<ServerResponse>();
  const sign = setInterval(() => {
    for (const page of pages) page.write(': here\n\n');
  }, interval);
  sign.unref();
  const tellOne = (page: ServerResponse, state: string) => {
    if (page.writableLength > mostWaiting) page.destroy();
    // JSON has no line of its own that could end the event.
    else page.write(`data: ${state}\n\n`);
  };
  return {
    isFull: () => pages.size >= mostPages,
    add(page, state) {
      pages.add(page);
      page.once('close', () => pages.delete(page));
      page.flushHeaders();
      // Soon again, where the desk was ended and begun anew at the same port.
      page.write('retry: 1000\n\n');
      if (state !== undefined) tellOne(page, state);
    },
    tell(state) {
      for (const page of pages) tellOne(page, state);
    },
    end() {
      clearInterval(sign);
      for (const page of pages) page.destroy();
    },
  };
}
