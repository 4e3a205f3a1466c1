import { chromium } from '@playwright/test';
const b = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox','--disable-gpu','--disable-quic','--no-first-run','--disable-background-networking','--disable-component-update','--disable-sync'] });
const steps = (await import(process.argv[2])).default;
for (const [name, vp, scheme] of [['phone',{width:360,height:740},'light'],['desk',{width:1280,height:800},'dark']]) {
  const ctx = await b.newContext({ viewport: vp, colorScheme: scheme, hasTouch: name==='phone' });
  const page = await ctx.newPage();
  page.on('console', m => { if (m.type()==='error') console.log('console', m.text()); });
  page.on('pageerror', e => console.log('pageerror', e.message));
  await steps(page, (n, full=true) => page.screenshot({ path: `/tmp/shots/${name}-${n}.png`, fullPage: full }));
}
await b.close();
