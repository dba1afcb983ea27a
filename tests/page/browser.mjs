// What the tests of pages share: the browser, the page to try, and where pictures go.
import { chromium } from 'playwright-core';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

export const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
export const build = process.env.POINTWRIGHT_BUILD ?? path.join(root, 'build/release');

export const samplePage = pathToFileURL(process.env.POINTWRIGHT_SAMPLE ?? path.join(build, 'tests/page/sample-page.html')).href;

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
export const open = async (browser, { url = samplePage, hash = '', ...options } = {}) => {
  const context = await browser.newContext({ ...options, offline: true });
  const page = await context.newPage();
  const trouble = [];
  page.on('console', (message) => trouble.push(`console ${message.type()}: ${message.text()}`));
  page.on('pageerror', (error) => trouble.push(`error: ${error.message}`));
  page.on('request', (request) => {
    if (!request.url().startsWith(url)) trouble.push(`request: ${request.url()}`);
  });
  if (options.javaScriptEnabled !== false) {
    await page.addInitScript(() => {
      globalThis.violations = [];
      addEventListener('securitypolicyviolation', (event) =>
        globalThis.violations.push(`${event.violatedDirective}: ${event.blockedURI}`),
      );
    });
  }
  await page.goto(url + hash);
  return { page, trouble, close: () => context.close() };
};
