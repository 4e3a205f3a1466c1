import { defineConfig } from '@playwright/test';

const executablePath = process.env.CHROMIUM || '/usr/bin/chromium';
// Another port lets two runs of the tests go at once.
const port = Number(process.env.TEST_PORT ?? 4173);
const baseURL = `http://127.0.0.1:${port}/`;
// Parts of the browser that no page needs. Each new window loads two hidden pages for suggestions below its address bar and starts a
// process in advance: more work than opening the app.
const unused = ['WebUIOmniboxPopup', 'WebUIOmniboxAimPopup', 'SpareRendererForSitePerProcess'];
// What Playwright 1.65 switches off itself: of two such flags the last one counts, so ours must name these too.
const offByPlaywright = [
  'AvoidUnnecessaryBeforeUnloadCheckSync', 'DestroyProfileOnBrowserClose', 'HttpsUpgrades', 'HttpsFirstBalancedModeAutoEnable', 'LensOverlay',
  'MediaRouter', 'PaintHolding', 'ThirdPartyStoragePartitioning', 'AvoidCorsURLLoaderRestartOnRedirect', 'OptimizationHints',
  'NetworkTimeServiceQuerying', 'AimEnabled', 'PreconnectToSearch',
];
// Without these flags Chromium asks for its maker's hosts at every start, and needs a sandbox that root does not get.
const args = [
  '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync', `--disable-features=${[...unused, ...offByPlaywright].join()}`,
];

// Sizes of screens: the narrow one that touch makes harder, and a desk.
const phone = { viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true, deviceScaleFactor: 2 };
const desk = { viewport: { width: 1280, height: 800 } };
// What goes otherwise on a large screen is tried in both sizes. All else is tried once: on the phone, or in somebody else's page at a
// desk. Whether everything fits is asked in both sizes wherever it is asked (`fitsScreen`), and `accessibility` goes through the sizes.
const bothSizes = ['main-job.spec.ts', 'drawings.spec.ts', 'reasoning.spec.ts', 'picture.spec.ts', 'screens.spec.ts'];
const elsewhere = ['hosts/**/*.spec.ts'];
// Taken on request: the picture in the README, and every screen to be looked at.
const ignored = [process.env.PICTURES ? '' : 'picture.spec.ts', process.env.SCREENS ? '' : 'screens.spec.ts'].filter(Boolean);

export default defineConfig({
  testDir: '.',
  outputDir: 'artefacts/results',
  workers: 2,
  fullyParallel: true,
  forbidOnly: !!process.env.CI,
  retries: 0,
  timeout: 60_000,
  // A shared machine is slow at times.
  expect: { timeout: 15_000 },
  reporter: [['list'], ['./slowest.ts']],
  // What the worker answers no test could change on the way; its own tests allow it.
  use: { baseURL, launchOptions: { executablePath, args }, locale: 'en-GB', serviceWorkers: 'block' },
  webServer: { command: `node server.mjs ${port}`, url: baseURL, reuseExistingServer: false, stdout: 'ignore' },
  projects: [
    { name: 'phone', testIgnore: [...ignored, ...elsewhere], use: phone },
    { name: 'desk', testMatch: [...bothSizes, ...elsewhere], testIgnore: ignored, use: desk },
  ],
});
