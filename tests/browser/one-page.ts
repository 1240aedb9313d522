import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll } from 'vitest';
import { launch, type OpenedPage, type PageOptions, type Session } from './session.ts';

/** A browser without glass for the whole file, and a page at a time that each test opens and that is closed after it. */
export interface OnePage {
  /** Leaves the page before, which may have complained of nothing. */
  open(options: PageOptions): Promise<Page>;
  close(): Promise<void>;
}

/** Called at the top of a test file. */
export function onePage(): OnePage {
  let session: Session;
  let opened: OpenedPage | undefined;
  const close = async (): Promise<void> => {
    const page = opened;
    opened = undefined;
    await page?.close();
  };
  beforeAll(async () => {
    session = await launch({ webgl: false });
  });
  afterAll(() => session?.close());
  afterEach(close);
  return {
    async open(options) {
      await close();
      opened = await session.openPage(options);
      return opened.page;
    },
    close,
  };
}
