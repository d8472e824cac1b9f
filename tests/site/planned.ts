import type { Page } from 'playwright-core';

/** Waits until the plan shown is the plan of the inputs given. */
export async function planned(page: Page): Promise<string> {
  await page.waitForFunction(() => {
    const plan = document.querySelector<HTMLElement>('#plan');
    const wanted = location.hash.slice(1);
    return plan?.dataset.hash === wanted && !plan.hasAttribute('aria-busy');
  });
  return (await page.locator('#plan').textContent()) ?? '';
}
