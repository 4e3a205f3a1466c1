import { screens } from './every-screen';
import { test } from './helpers';

// `make screens` takes every screen in both sizes and both looks; the ordinary run leaves it alone.
for (const look of ['light', 'dark'] as const) {
  for (const screen of screens) {
    test(`${screen.name}, ${look}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: look });
      await screen.show(page);
      await page.waitForTimeout(200);
      await page.screenshot({ path: `artefacts/screens/${test.info().project.name}-${look}/${screen.name}.png`, fullPage: true });
    });
  }
}
