/** What the server answered; `status` as HTTP has it. */
export interface Answered<T> {
  readonly status: number;
  readonly value: T;
}

/** The server could not be reached, or refused in words of its own. */
export class NoAnswer extends Error {}

export async function ask<T>(path: string): Promise<T> {
  const { status, value } = await exchange<T>(path, {});
  if (status !== 200) throw new NoAnswer(wordsOf(value, status));
  return value;
}

/** Sends an order, or a face as bytes; answers of 409 and 410 are the caller's to tell. */
export async function send<T>(path: string, body: object): Promise<Answered<T>> {
  const bytes = body instanceof Uint8Array;
  const answered = await exchange<T>(path, {
    method: 'POST',
    headers: { 'Content-Type': bytes ? 'application/octet-stream' : 'application/json' },
    body: bytes ? (body as Uint8Array<ArrayBuffer>) : JSON.stringify(body),
  });
  if (![200, 409, 410].includes(answered.status)) throw new NoAnswer(wordsOf(answered.value, answered.status));
  return answered;
}

async function exchange<T>(path: string, order: RequestInit): Promise<Answered<T>> {
  const answer = await fetch(path, order).catch(() => null);
  if (!answer) throw new NoAnswer('The collection does not answer; see whether ectype serve still runs.');
  const value = await answer.json().catch(() => null);
  return { status: answer.status, value };
}

function wordsOf(value: unknown, status: number): string {
  const words = (value as { words?: unknown } | null)?.words;
  if (typeof words === 'string') return words;
  return status === 401
    ? 'The collection wants its token; open the address that ectype serve printed.'
    : `The collection refused this (${status}).`;
}
