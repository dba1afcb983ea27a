// What the tests of pages share: the browser, the page to try, and where pictures go.
import axe from '@axe-core/playwright';
import { chromium } from 'playwright-core';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build, root } from './paths.mjs';

export { build, root };

const made = (name) => pathToFileURL(path.join(build, 'tests/page', name)).href;
export const livePage = made('sample-page.html');
export const plainPage = made('plain-page.html');

// The sample course once more, as the files of a site. Nobody answers under this name but the test.
export const siteAddress = 'http://course.example/';
const site = path.join(build, 'tests/page/sample-site');
const types = { '.html': 'text/html', '.css': 'text/css', '.js': 'text/javascript', '.wasm': 'application/wasm' };
const serveSite = (context, asked) =>
  context.route(`${siteAddress}**`, (route) => {
    const name = path.basename(new URL(route.request().url()).pathname) || 'index.html';
    asked.push(name);
    return route.fulfill({ path: path.join(site, name), contentType: types[path.extname(name)] });
  });
// Where the site has what the one page has behind a hash.
const sitePage = (hash) => `${siteAddress}${hash ? `chapter-${hash.slice(1)}.html` : 'index.html'}`;
export const onSite = () => process.env.POINTWRIGHT_SITE === '1';

export const pictures = path.join(build, 'page-pictures');
mkdirSync(pictures, { recursive: true });

export const sizes = {
  phone: { width: 360, height: 740 },
  laptop: { width: 1366, height: 768 },
  projector: { width: 3840, height: 2160 },
};

export const launch = () =>
  chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });

// Opens a page with the network cut, and collects what must not happen: requests to anywhere but
// the page itself, messages on the console, errors, violations of the content security policy.
export const open = async (browser, { url = livePage, hash = '', ...options } = {}) => {
  const site = url === livePage && onSite();
  const context = await browser.newContext({ ...options, offline: !site });
  const asked = [];
  if (site) await serveSite(context, asked);
  const page = await context.newPage();
  page.setDefaultTimeout(Number(process.env.POINTWRIGHT_TIMEOUT ?? 60000));
  const trouble = [];
  page.on('console', (message) => trouble.push(`console ${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => trouble.push(`error: ${error.message}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(site ? siteAddress : url) && !request.url().startsWith('blob:')) trouble.push(`request: ${request.url()}`);
  });
  if (options.javaScriptEnabled !== false) {
    await page.addInitScript(() => {
      globalThis.violations = [];
      addEventListener('securitypolicyviolation', (event) =>
        globalThis.violations.push(`${event.violatedDirective}: ${event.blockedURI}`),
      );
    });
  }
  await page.goto(site ? sitePage(hash) : url + hash);
  return { page, trouble, asked, close: () => context.close() };
};

// Drags from the middle of one element to the middle of another, as a hand would.
export const drag = async (page, from, to) => {
  const middle = async (locator) => {
    const { x, y, width, height } = await locator.boundingBox();
    return [x + width / 2, y + height / 2];
  };
  const [x0, y0] = await middle(from);
  const [x1, y1] = await middle(to);
  await page.mouse.move(x0, y0);
  await page.mouse.down();
  for (let i = 1; i <= 5; ++i) await page.mouse.move(x0 + ((x1 - x0) * i) / 5, y0 + ((y1 - y0) * i) / 5);
  await page.mouse.up();
};

/** A place of a board that can be played on. */
export const place = (within, name) => within.locator(`.place[data-place="${name}"]`);

const AxeBuilder = axe.default ?? axe;
/** What an accessibility scan (axe) objects to: all of the page, or less by `narrow`. */
export const objections = async (page, narrow = (scan) => scan) => {
  const { violations } = await narrow(new AxeBuilder({ page })).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`);
};

// Waits until a function of the page says yes. (The page's policy forbids what waitForFunction does.)
export const until = async (page, holds, argument) => {
  const end = Date.now() + 60_000;
  while (!(await page.evaluate(holds, argument))) {
    if (Date.now() > end) throw new Error(`still not so: ${holds}`);
    await page.waitForTimeout(30);
  }
};
