import type { Page } from 'playwright-core';

/**
 * Until the page's session lies in the browser's store as it stands now: what was put there is no older than this call. The page
 * saves by itself a moment after every act, and at once when it is left; it is told that it is left until a save has come through.
 */
export async function kept(page: Page): Promise<void> {
  const since = await page.evaluate(() => Date.now());
  await page.waitForFunction(
    async (least) => {
      dispatchEvent(new Event('pagehide'));
      const base = await new Promise<IDBDatabase>((settle, fail) => {
        const request = indexedDB.open('ectype');
        request.onsuccess = () => settle(request.result);
        request.onerror = () => fail(request.error);
      });
      try {
        if (!base.objectStoreNames.contains('sessions')) return false;
        const stored = await new Promise<{ at: number }[]>((settle) => {
          const request = base.transaction('sessions').objectStore('sessions').getAll();
          request.onsuccess = () => settle(request.result);
        });
        return stored.some(({ at }) => at >= least);
      } finally {
        base.close();
      }
    },
    since,
    { polling: 50, timeout: 30_000 },
  );
}

/** Until `done` holds on the page and goes on holding for a dozen of its frames: work that one act leads to begins within these. */
export async function settled(page: Page, done: () => boolean, timeout = 120_000): Promise<void> {
  const last = Date.now() + timeout;
  for (let held = 0; held < 12; ) {
    await page.waitForFunction(done, undefined, { timeout: Math.max(1, last - Date.now()) });
    await page.evaluate(() => new Promise((next) => requestAnimationFrame(next)));
    held = (await page.evaluate(done)) ? held + 1 : 0;
  }
}

/** Until ten frames in a row come without the page being busy in between (50 ms each at most). */
export async function idle(page: Page): Promise<void> {
  await page.evaluate(async () => {
    let last = performance.now();
    for (let calm = 0; calm < 10; ) {
      const now = await new Promise<number>((next) => requestAnimationFrame(() => next(performance.now())));
      calm = now - last < 50 ? calm + 1 : 0;
      last = now;
    }
  });
}

/** The picture once it does not change any more from one look to the next. */
export async function still(look: () => Promise<Buffer>): Promise<Buffer> {
  let before = await look();
  for (;;) {
    const now = await look();
    if (now.equals(before)) return now;
    before = now;
  }
}

/** From the front door, where the page first opens, to the pair that lies behind it. */
export async function walkIn(page: Page): Promise<void> {
  await page.waitForSelector('.at-door .question-door');
  await page
    .getByRole('button', { name: /compare$/i })
    .first()
    .click();
}
