import type { Server } from 'node:http';
import type { Socket } from 'node:net';

/** So many connections may be there that have not shown the token yet, and so many that have. */
const most = { strangers: 32, known: 64 } as const;

/** The connections of a server, held to a limit. */
export interface Callers {
  /** Tells that a connection has shown the token. */
  know(socket: Socket): void;
}

/**
 * Holds the connections of a server to a limit without locking anybody out: for a new one, the oldest that has not shown
 * the token goes, so that a flood pushes out itself and not the page.
 */
export function callersOf(server: Server): Callers {
  const strangers = new Set<Socket>();
  const known = new Set<Socket>();
  server.on('connection', (socket: Socket) => {
    strangers.add(socket);
    socket.once('close', () => {
      strangers.delete(socket);
      known.delete(socket);
    });
    socket.on('error', () => socket.destroy());
    shorten(strangers, most.strangers);
  });
  return {
    know(socket) {
      strangers.delete(socket);
      known.add(socket);
      shorten(known, most.known);
    },
  };
}

function shorten(sockets: Set<Socket>, to: number): void {
  for (const oldest of sockets) {
    if (sockets.size <= to) return;
    sockets.delete(oldest);
    oldest.destroy();
  }
}
