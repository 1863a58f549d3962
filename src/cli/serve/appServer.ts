import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo, Socket } from 'node:net';
import { type Access, admission, isFromOwnPage, isServedHost, type Refusal } from './access.ts';
import type { StaticFile, StaticTable } from './staticTable.ts';

/** What is asked of whoever answers beside the table. */
export interface Asked {
  readonly method: 'GET' | 'POST';
  readonly path: string;
  /** All that came with it, at most `limits.bodyBytes`. */
  readonly body: Uint8Array;
  /** Lets the connection be silent while something long is worked out. */
  patience(): void;
}

export interface Answer extends StaticFile {
  readonly status?: number;
}

/** Answers what is not in the table, made when it is asked for; null for what it does not know. Throws nothing but mistakes. */
export type Beside = (asked: Asked) => Promise<Answer | null>;

/** What may be shown inside frames or sniffed is nothing; the page carries its own content policy as well. */
const headers = {
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Content-Security-Policy': "frame-ancestors 'none'",
  'Cache-Control': 'no-cache',
};

/** Longest path, characters; bytes of a body; bytes and count of a request's headers; connections at once; requests on one of them. */
const limits = {
  path: 1024,
  bodyBytes: 4_000_000,
  headerBytes: 8192,
  headers: 60,
  connections: 128,
  requestsPerSocket: 1000,
};

/** Milliseconds for the headers, for a whole request, of silence between two, of silence at all, and of silence while something long is worked out. */
const times = { headers: 10_000, request: 15_000, keepAlive: 5_000, silence: 20_000, patience: 300_000 };

/**
 * Serves the table and nothing else: GET and HEAD, and POST where somebody answers beside the table, for hosts that name the loopback
 * or the stated address with its port, so that no page of another name can have its requests taken for the app's. No request ends it.
 */
export function appServer(table: StaticTable, beside: Beside | null = null, access: Access = {}): Server {
  const server = createServer(
    {
      maxHeaderSize: limits.headerBytes,
      headersTimeout: times.headers,
      requestTimeout: times.request,
      keepAliveTimeout: times.keepAlive,
      connectionsCheckingInterval: 2_000,
    },
    (request, response) => {
      request.on('error', () => undefined);
      response.on('error', () => undefined);
      const port = (server.address() as AddressInfo | null)?.port;
      answer({ table, beside, access, port }, request, response).catch(() =>
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

interface Serving {
  readonly table: StaticTable;
  readonly beside: Beside | null;
  readonly access: Access;
  readonly port: number | undefined;
}

async function answer(serving: Serving, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { table, beside, access } = serving;
  const posted = request.method === 'POST';
  if (!posted) request.resume();
  const refusal = refusalOf(request, serving);
  if (refusal) return refuse(response, ...refusal);
  const admitted = admission(request, access);
  if (admitted && 'goTo' in admitted) {
    response.writeHead(303, {
      ...headers,
      Location: admitted.goTo,
      'Set-Cookie': admitted.cookie,
      'Content-Length': 0,
    });
    response.end();
    return;
  }
  if (admitted) return refuse(response, ...admitted);
  const body = posted ? await bodyOf(request) : new Uint8Array();
  if (!body) return refuse(response, 413, 'Too much.');
  const path = pathOf(request.url ?? '');
  const patience = (): void => void request.socket.setTimeout(times.patience);
  const method = posted ? 'POST' : 'GET';
  const file: Answer | null | undefined =
    (posted ? undefined : table.get(path)) ?? (await beside?.({ method, path, body, patience }));
  request.socket.setTimeout(times.silence);
  if (!file) return refuse(response, 404, 'Not found.');
  const length = { 'Content-Type': file.type, 'Content-Length': file.bytes.length };
  response.writeHead(file.status ?? 200, { ...headers, ...length });
  response.end(request.method === 'HEAD' ? undefined : file.bytes);
}

/** Null where it is longer than may be. */
async function bodyOf(request: IncomingMessage): Promise<Uint8Array | null> {
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of request) {
    bytes += (part as Buffer).length;
    if (bytes > limits.bodyBytes) return null;
    parts.push(part as Buffer);
  }
  return Buffer.concat(parts);
}

function refusalOf(request: IncomingMessage, { beside, access, port }: Serving): Refusal | null {
  const { method, url = '', headers: sent } = request;
  if (!isServedHost(sent.host, port, access)) return [421, `Ask for ${access.address ?? '127.0.0.1'}.`];
  if (url.length > limits.path) return [414, 'Too long.'];
  if (method === 'POST' && beside) return isFromOwnPage(request) ? null : [403, 'Changes come from the served pages.'];
  return method === 'GET' || method === 'HEAD' ? null : [405, 'Only GET and HEAD.'];
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

/** What is no HTTP, or has too many headers. */
function refuseUnreadable(error: NodeJS.ErrnoException, socket: Socket): void {
  socket.on('error', () => undefined);
  if (!socket.writable || error.code === 'ECONNRESET') socket.destroy();
  else {
    const status = error.code === 'HPE_HEADER_OVERFLOW' ? '431 Request Header Fields Too Large' : '400 Bad Request';
    socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`, () => socket.destroy());
  }
}
