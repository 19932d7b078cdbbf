// A phone in the hand of a test: Chromium with a profile of its own, so that what the app keeps
// can outlive the browser. No step has a time limit; a test that hangs is ended by the runner, and
// what browsers are left when a file ends are ended with it.
//
//   phoneTest('a round survives a dead battery', { timezone: 'America/Bogota' }, async (phone) => {
//     await phone.page.getByRole('button', { name: 'Watered' }).click();
//     await kill(phone);
//     const again = await reopen(phone);
//   });
import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, readFile, readdir, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, test } from 'node:test';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const root = fileURLToPath(new URL('../../', import.meta.url));
const output = path.join(root, 'test-output');

/** Where the release build is served: at the top of an origin, and under a folder of another. */
export const home = process.env.VELAMEN_URL ?? 'http://127.0.0.1:8080/';
export const homeUnderFolder = process.env.VELAMEN_SUB_URL;

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
];

/**
 * Opens the app. Options: `profile` (a folder; a new one by default), `url` (null opens a blank
 * page), `timezone`, `locale`, `colorScheme`, `reducedMotion`, `forcedColors`, `width`, `height`,
 * `scale`, `permissions`, `flags` (added ones) and `init` (a function run in every page before the
 * app). Gives `{ context, page, profile, options, complaints }`; `complaints` grows with every
 * console error, uncaught error, failed request and answer of 400 or more.
 */
export async function open(options = {}) {
  const profile = options.profile ?? (await mkdtemp(path.join(tmpdir(), 'velamen-profile-')));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    args: [...flags, ...(options.flags ?? [])],
    viewport: { width: options.width ?? 390, height: options.height ?? 844 },
    deviceScaleFactor: options.scale ?? 2,
    isMobile: true,
    hasTouch: true,
    locale: options.locale ?? 'en-GB',
    timezoneId: options.timezone ?? 'Europe/Madrid',
    colorScheme: options.colorScheme ?? 'light',
    reducedMotion: options.reducedMotion,
    forcedColors: options.forcedColors,
    permissions: options.permissions,
    acceptDownloads: true,
  });
  // None in the suite; while a test is being written, VELAMEN_WAIT_MS says soon where it hangs.
  context.setDefaultTimeout(Number(process.env.VELAMEN_WAIT_MS ?? 0));
  await context.tracing.start({ snapshots: true });
  if (options.init) await context.addInitScript(options.init);
  const complaints = [];
  const page = context.pages()[0] ?? (await context.newPage());
  listen(page, complaints);
  context.on('page', (other) => listen(other, complaints));
  const phone = { context, page, profile, options, complaints, before: options.before };
  running.add(phone);
  context.on('close', () => running.delete(phone));
  const url = options.url === undefined ? home : options.url;
  if (url) await page.goto(url);
  return phone;
}

/** The phones whose browser runs: one left open would keep its file's process from ever ending. */
const running = new Set();
after(async () => {
  for (const phone of running) await close(phone).catch(() => {});
});

function listen(page, complaints) {
  page.on('console', (line) => {
    if (line.type() === 'error') complaints.push(`${line.text()} [${line.location().url}]`);
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  page.on('requestfailed', (request) => complaints.push(`${request.url()}: ${request.failure()?.errorText}`));
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.url()}: ${response.status()}`);
  });
}

/** Closes the browser in good order; the profile stays. */
export async function close(phone) {
  await phone.context.close();
}

/** Opens the same profile again, with the same options unless others are given. */
export async function reopen(phone, options = {}) {
  return open({ ...phone.options, ...options, profile: phone.profile, before: phone });
}

/** Whether `later` is `phone`, or came of it by any number of reopenings. */
function cameOf(later, phone) {
  for (let one = later; one; one = one.before) if (one === phone) return true;
  return false;
}

/** SIGKILL for the whole browser, as when the battery is pulled. Gives the process ids it ended. */
export async function kill(phone) {
  const ended = await processesOf(phone.profile);
  if (ended.length === 0) throw new Error(`No browser runs on ${phone.profile}.`);
  for (const id of ended) signal(id, 'SIGKILL');
  while ((await processesOf(phone.profile)).length > 0) await pause(20);
  await phone.context.close().catch(() => {});
  // The lock of a dead browser would stop the next one.
  for (const lock of ['SingletonLock', 'SingletonSocket', 'SingletonCookie']) {
    await rm(path.join(phone.profile, lock), { force: true });
  }
  return ended;
}

function signal(id, name) {
  try {
    process.kill(id, name);
  } catch (error) {
    if (error.code !== 'ESRCH') throw error;
  }
}

/** The browser started on this profile, and every process it started. */
async function processesOf(profile) {
  const running = [];
  for (const name of await readdir('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      const stat = await readFile(`/proc/${name}/stat`, 'utf8');
      const words = await readFile(`/proc/${name}/cmdline`, 'utf8');
      const [state, parent] = stat.slice(stat.lastIndexOf(') ') + 2).split(' ');
      if (state !== 'Z') running.push({ id: Number(name), parent: Number(parent), words: words.split('\0') });
    } catch {
      // It ended while the list was read.
    }
  }
  const found = new Set(
    running.filter((one) => one.words.includes(`--user-data-dir=${profile}`)).map((one) => one.id),
  );
  let before;
  do {
    before = found.size;
    for (const one of running) if (found.has(one.parent)) found.add(one.id);
  } while (found.size > before);
  return [...found];
}

/** A picture of the whole page into test-output/pictures/NAME.png. */
export async function picture(page, name) {
  const folder = path.join(output, 'pictures');
  await mkdir(folder, { recursive: true });
  const file = path.join(folder, `${name}.png`);
  await page.screenshot({ path: file, fullPage: true, timeout: 0 });
  return file;
}

const axeSource = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * What axe-core finds against WCAG 2.2 A and AA, as `[{ id, help, nodes: [{ target, summary }] }]`;
 * an empty list where all is well. It comes in through the debugger, so the page's policy stays whole.
 */
export async function axe(page) {
  const session = await page.context().newCDPSession(page);
  try {
    const expression = `${axeSource};axe.run(document, {
      runOnly: { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag22aa'] },
      resultTypes: ['violations'],
    }).then((found) => found.violations.map(({ id, help, nodes }) => ({
      id, help, nodes: nodes.map((node) => ({ target: node.target.join(' '), summary: node.failureSummary })),
    })))`;
    const answer = await session.send('Runtime.evaluate', { expression, awaitPromise: true, returnByValue: true });
    if (answer.exceptionDetails) throw new Error(JSON.stringify(answer.exceptionDetails));
    return answer.result.value;
  } finally {
    await session.detach().catch(() => {});
  }
}

/**
 * A server of the test's own, so that it can be stopped: `{ url, stop() }`. `port` 0 is any free
 * one, `under` a folder of the address, `dist` another build than the one under test.
 */
export async function serve({ port = 0, under, dist } = {}) {
  const words = ['serve', '--as-built', '--port', String(port)];
  if (under) words.push('--under', under);
  if (dist) words.push('--dist', dist);
  const own = process.env.VELAMEN_XTASK;
  const child = own
    ? spawn(own, words, { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] })
    : spawn('cargo', ['xtask', ...words], { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise((resolve) => child.once('exit', resolve));
  const url = await new Promise((resolve, reject) => {
    let said = '';
    child.stdout.on('data', (chunk) => {
      said += chunk;
      const found = said.match(/http:\S+/);
      if (found) resolve(found[0]);
    });
    child.once('exit', (code) => reject(new Error(`The server ended with ${code}: ${said}`)));
    child.once('error', reject);
  });
  return {
    url,
    async stop() {
      child.kill('SIGKILL');
      await ended;
    },
  };
}

/**
 * A test with a phone. The browser is always closed, however often it was reopened; the profile is
 * removed when the test holds. When it fails, the trace and a picture go to test-output/failed, and
 * the profile stays.
 */
export function phoneTest(name, options, body) {
  test(name, async (t) => {
    const phone = await open(options);
    try {
      await body(phone, t);
    } catch (error) {
      await keep(phone, name).catch((trouble) => t.diagnostic(`Nothing kept: ${trouble.message}`));
      t.diagnostic(`The profile is at ${phone.profile}`);
      await closeAll(phone);
      throw error;
    }
    await closeAll(phone);
    // A browser that has just gone may still be putting its cache away.
    await rm(phone.profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  });
}

async function keep(phone, name) {
  const folder = path.join(output, 'failed');
  await mkdir(folder, { recursive: true });
  const file = path.join(folder, name.replace(/[^\w]+/g, '-'));
  const last = [...running].filter((one) => cameOf(one, phone)).at(-1) ?? phone;
  await last.context.tracing.stop({ path: `${file}.zip` });
  await last.page.screenshot({ path: `${file}.png`, timeout: 0 });
}

async function closeAll(phone) {
  for (const one of [...running].filter((each) => cameOf(each, phone))) {
    await close(one).catch(() => {});
  }
}
