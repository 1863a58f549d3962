import { timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** Who may ask. Without a stated address, programs of this computer alone. */
export interface Access {
  /** Host name or address that is served besides the loopback's names. */
  readonly address?: string;
  /** What a browser has to show; kept as a cookie once the address with it was opened. */
  readonly token?: string;
}

export type Refusal = readonly [status: number, words: string];

const cookieName = 'ectype-token';

/** 127.0.0.1, localhost or [::1], or the stated address instead of them, with the server's own port. */
export function isServedHost(host: string | undefined, port: number | undefined, { address }: Access): boolean {
  const found = /^(\[[0-9a-f:.]+\]|[^:/@\s]+)(?::(\d{1,5}))?$/i.exec(host ?? '');
  if (!found || Number(found[2] ?? 80) !== port) return false;
  const name = found[1].toLowerCase();
  return address ? name === bracketed(address.toLowerCase()) : ['127.0.0.1', 'localhost', '[::1]'].includes(name);
}

/** An address as it stands in a URL. */
export const bracketed = (address: string): string => (address.includes(':') ? `[${address}]` : address);

/**
 * What a request has to show. The token comes once with the address, which is then asked for again without it, and the cookie says
 * it from then on. Returns null where the request may pass.
 */
export function admission(
  { headers, url = '' }: IncomingMessage,
  { token }: Access,
): Refusal | { readonly goTo: string; readonly cookie: string } | null {
  if (!token) return null;
  const asked = new URL(url, 'http://host');
  const shown = asked.searchParams.get('token');
  if (shown !== null && isSame(shown, token)) {
    asked.searchParams.delete('token');
    return {
      goTo: `${asked.pathname}${asked.search}`,
      cookie: `${cookieName}=${token}; Path=/; HttpOnly; SameSite=Lax`,
    };
  }
  const cookie = new RegExp(`(?:^|;\\s*)${cookieName}=([^;]*)`).exec(headers.cookie ?? '')?.[1];
  return cookie !== undefined && isSame(cookie, token)
    ? null
    : [401, 'Open the address with its token, as ectype serve printed it.'];
}

/**
 * A change is taken from the served pages alone: browsers say which page sends it, and a foreign page cannot send these types of
 * content without being asked first.
 */
export function isFromOwnPage({ headers }: IncomingMessage): boolean {
  const { origin, host } = headers;
  const site = headers['sec-fetch-site'];
  const type = (headers['content-type'] ?? '').split(';', 1)[0].trim();
  return (
    (origin === undefined || origin === `http://${host}`) &&
    (site === undefined || site === 'same-origin') &&
    (type === 'application/json' || type === 'application/octet-stream')
  );
}

function isSame(shown: string, token: string): boolean {
  const [a, b] = [Buffer.from(shown), Buffer.from(token)];
  return a.length === b.length && timingSafeEqual(a, b);
}
