import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import type { StaticFile, StaticTable } from './staticTable.ts';

/** Answers what is not in the table, made when it is asked for; null for what it does not know. Throws nothing but mistakes. */
export type Beside = (path: string) => Promise<StaticFile | null>;

/** What may be shown inside frames or sniffed is nothing; the page carries its own content policy as well. */
const headers = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Content-Security-Policy': "frame-ancestors 'none'",
  'Cache-Control': 'no-cache',
};

/** Longest path, characters; bytes and count of a request's headers; connections at once; requests on one of them. */
const limits = { path: 1024, headerBytes: 8192, headers: 60, connections: 128, requestsPerSocket: 1000 };

/** Milliseconds for the headers, for a whole request, of silence between two, and of silence at all. */
const times = { headers: 10_000, request: 15_000, keepAlive: 5_000, silence: 20_000 };

/**
 * Serves the table and nothing else, to this computer and nobody else: GET and HEAD, for hosts that name the loopback
 * with its port, so that no page of another name can have its requests taken for the app's. No request ends it.
 */
export function appServer(table: StaticTable, beside: Beside = async () => null): Server {
  const server = createServer(
    {
      maxHeaderSize: limits.headerBytes,
      headersTimeout: times.headers,
      requestTimeout: times.request,
      keepAliveTimeout: times.keepAlive,
      connectionsCheckingInterval: 2_000,
    },
    (request, response) => {
      request.on('error', () => undefined).resume();
      response.on('error', () => undefined);
      const port = (server.address() as AddressInfo | null)?.port;
      answer(table, beside, port, request, response).catch(() =>
        refuse(response, 500, 'This cannot be made just now.'),
      );
    },
  );
  server.maxHeadersCount = limits.headers;
  server.maxConnections = limits.connections;
  server.maxRequestsPerSocket = limits.requestsPerSocket;
  server.setTimeout(times.silence, (socket) => socket.destroy());
  server.on('clientError', refuseUnreadable);
  return server;
}

async function answer(
  table: StaticTable,
  beside: Beside,
  port: number | undefined,
  request: IncomingMessage,
  response: ServerResponse,
): Promise<void> {
  const refusal = refusalOf(request, port);
  if (refusal) return refuse(response, ...refusal);
  const path = pathOf(request.url ?? '');
  const file = table.get(path) ?? (await beside(path));
  if (!file) return refuse(response, 404, 'Not found.');
  response.writeHead(200, { ...headers, 'Content-Type': file.type, 'Content-Length': file.bytes.length });
  response.end(request.method === 'HEAD' ? undefined : file.bytes);
}

type Refusal = readonly [status: number, words: string];

function refusalOf({ method, url = '', headers: { host } }: IncomingMessage, port: number | undefined): Refusal | null {
  if (!isLoopback(host, port)) return [421, 'Ask for 127.0.0.1.'];
  if (method !== 'GET' && method !== 'HEAD') return [405, 'Only GET and HEAD.'];
  return url.length > limits.path ? [414, 'Too long.'] : null;
}

/** The connection is closed too: what follows in it, or a body, is not waited for. */
function refuse(response: ServerResponse, status: number, words: string): void {
  if (status === 405) response.setHeader('Allow', 'GET, HEAD');
  response.writeHead(status, { ...headers, 'Content-Type': 'text/plain; charset=utf-8', Connection: 'close' });
  response.end(`${words}\n`);
}

/** The path without the question, decoded; as it came where it cannot be. */
function pathOf(url: string): string {
  const path = url.split(/[?#]/, 1)[0];
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

/** 127.0.0.1, localhost or [::1] with the server's own port. */
function isLoopback(host: string | undefined, port: number | undefined): boolean {
  const found = /^(127\.0\.0\.1|localhost|\[::1\])(?::(\d{1,5}))?$/i.exec(host ?? '');
  return found !== null && Number(found[2] ?? 80) === port;
}

/** What is no HTTP, or has too many headers. */
function refuseUnreadable(error: NodeJS.ErrnoException, socket: Socket): void {
  socket.on('error', () => undefined);
  if (!socket.writable || error.code === 'ECONNRESET') socket.destroy();
  else {
    const status = error.code === 'HPE_HEADER_OVERFLOW' ? '431 Request Header Fields Too Large' : '400 Bad Request';
    socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`, () => socket.destroy());
  }
}
