import { screens } from './every-screen';
import { test, worked } from './helpers';

// `make screens` takes every screen in both sizes and both looks; the ordinary run leaves it alone.
for (const look of ['light', 'dark'] as const) {
  for (const screen of screens) {
    test(`${screen.name}, ${look}`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: look });
      await screen.show(page);
      // Colours that are on their way from one look to the other are neither.
      await page.evaluate(() => Promise.all(document.getAnimations().map((one) => one.finished)));
      await worked(page);
      await page.screenshot({ path: `artefacts/screens/${test.info().project.name}-${look}/${screen.name}.png`, fullPage: true });
    });
  }
}
