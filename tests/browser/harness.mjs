// A phone in the hand of a test: Chromium with a profile of its own, so that what the app keeps
// can outlive the browser. A step that waits for minutes in vain ends with what it waited for and what
// the screen showed instead; what browsers are left when a file ends are ended with it.
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

/** A step that waits longer waits in vain: the slowest machine is not that slow, and the runner ends a test at ten minutes. */
const STEP_MS = Number(process.env.VELAMEN_WAIT_MS ?? 240_000);

/** A worse phone than the one under the test, to find what only holds on a good one: see DEVELOPERS.md. */
const hardship = {
  cpu: Number(process.env.VELAMEN_SLOW ?? 1),
  disk: Number(process.env.VELAMEN_DISK_MS ?? 0),
  shift: Number(process.env.VELAMEN_SHIFT_H ?? 0) * 3_600_000,
};

/**
 * Opens the app. Options: `profile` (a folder; a new one by default), `url` (null opens a blank
 * page), `timezone`, `locale`, `colorScheme`, `reducedMotion`, `forcedColors`, `width`, `height`,
 * `scale`, `laptop` (a mouse and a keyboard, 1280x800), `permissions`, `noWorker` (the program is not kept on the phone), `flags` (added ones) and `init` (a function run in every page before the
 * app). Gives `{ context, page, profile, options, complaints }`; `complaints` grows with every
 * console error, uncaught error, failed request and answer of 400 or more.
 */
export async function open(options = {}) {
  const profile = options.profile ?? (await mkdtemp(path.join(tmpdir(), 'velamen-profile-')));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    args: [...flags, ...(options.flags ?? [])],
    viewport: { width: options.width ?? (options.laptop ? 1280 : 390), height: options.height ?? (options.laptop ? 800 : 844) },
    deviceScaleFactor: options.scale ?? 2,
    isMobile: !options.laptop,
    hasTouch: !options.laptop,
    locale: options.locale ?? 'en-GB',
    timezoneId: options.timezone ?? 'Europe/Madrid',
    colorScheme: options.colorScheme ?? 'light',
    reducedMotion: options.reducedMotion,
    forcedColors: options.forcedColors,
    permissions: options.permissions,
    serviceWorkers: options.noWorker ? 'block' : 'allow',
    acceptDownloads: true,
  });
  context.setDefaultTimeout(STEP_MS);
  await context.tracing.start({ snapshots: true });
  await context.addInitScript(endure, hardship);
  if (options.init) await context.addInitScript(options.init);
  const complaints = [];
  const page = context.pages()[0] ?? (await context.newPage());
  tapAsAHandDoes(page);
  listen(page, complaints);
  context.on('page', (other) => {
    listen(other, complaints);
    slow(other).catch(() => {});
  });
  await slow(page);
  const phone = { context, page, profile, options, complaints, before: options.before };
  running.add(phone);
  context.on('close', () => running.delete(phone));
  const url = options.url === undefined ? home : options.url;
  if (url) await page.goto(url);
  return phone;
}

/** The keys that drop a second tap at the same spot (app/src/ui/guard.rs), and a little more than the time for which they do. */
const GUARDED = '.action, .action *, .work-do, .work-do *, .notice-key, .notice-key *';
const GHOST_MS = 400;
let patient = false;

/**
 * A hand does not come back to a key that records within a third of a second; what does is taken for a drop of water.
 * So every click on such a key waits out the rest of that time since the click before it, whoever wrote the test.
 */
function tapAsAHandDoes(page) {
  if (patient) return;
  patient = true;
  const kind = Object.getPrototypeOf(page.locator('body'));
  const { click } = kind;
  const last = new WeakMap();
  kind.click = async function tapped(options) {
    const here = this.page();
    const rest = (last.get(here) ?? 0) + GHOST_MS - Date.now();
    if (rest > 0 && await this.evaluate((element, keys) => element.matches(keys), GUARDED)) {
      await here.waitForTimeout(rest);
    }
    await click.call(this, options);
    last.set(here, Date.now());
  };
}

/** Runs in every page before the app: another hour or day, and a disk on which every write takes its time. */
function endure({ disk, shift }) {
  if (shift) {
    const Right = Date;
    globalThis.Date = class extends Right {
      constructor(...given) {
        super(...(given.length ? given : [Right.now() + shift]));
      }

      static now() {
        return Right.now() + shift;
      }
    };
  }
  if (disk && globalThis.IDBTransaction) {
    const { commit } = IDBTransaction.prototype;
    IDBTransaction.prototype.commit = function late() {
      const from = performance.now();
      const store = this.objectStore(this.objectStoreNames[0]);
      // A transaction that is asked for nothing would end by itself.
      const wait = () => {
        if (performance.now() - from < disk) store.count(0).onsuccess = wait;
        else commit.call(this);
      };
      wait();
    };
  }
}

async function slow(page) {
  if (hardship.cpu <= 1) return;
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: hardship.cpu });
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
  page.on('requestfailed', (request) => {
    const why = request.failure()?.errorText;
    // Given up by the page itself, which went on or was loaded again before it had come.
    if (why !== 'net::ERR_ABORTED') complaints.push(`${request.url()}: ${why}`);
  });
  page.on('response', (response) => {
    if (response.status() >= 400) complaints.push(`${response.url()}: ${response.status()}`);
  });
}

/** Closes the browser in good order, and waits until it has put its files away; the profile stays. */
export async function close(phone) {
  const ending = await processesOf(phone.profile);
  await phone.context.close();
  await gone(ending);
}

async function gone(ids) {
  for (const id of ids) while (await runs(id)) await pause(20);
}

async function runs(id) {
  const stat = await readFile(`/proc/${id}/stat`, 'utf8').catch(() => '');
  return stat !== '' && stat.slice(stat.lastIndexOf(') ') + 2, stat.lastIndexOf(') ') + 3) !== 'Z';
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

/**
 * SIGKILL for the whole browser, as when the battery is pulled. Gives the process ids it ended. What the app has given to
 * the disk by then is waited for: work in hand is shown first and written right after, and a slow disk is no fault. With
 * `atOnce` nothing is waited for, and anything may have been cut short.
 */
export async function kill(phone, { atOnce = false } = {}) {
  if (!atOnce) await putAway(phone.page).catch(() => {});
  const ended = await processesOf(phone.profile);
  if (ended.length === 0) throw new Error(`No browser runs on ${phone.profile}.`);
  for (const id of ended) signal(id, 'SIGKILL');
  await gone(ended);
  await phone.context.close().catch(() => {});
  // The lock of a dead browser would stop the next one.
  for (const lock of ['SingletonLock', 'SingletonSocket', 'SingletonCookie']) {
    await rm(path.join(phone.profile, lock), { force: true });
  }
  return ended;
}

/** Until all that was asked of the databases before is done: reading all of it stands in line behind every write. */
function putAway(page) {
  return page.evaluate(async () => {
    for (const { name } of await indexedDB.databases()) {
      await new Promise((done) => {
        const opening = indexedDB.open(name);
        opening.onerror = done;
        opening.onsuccess = () => {
          const database = opening.result;
          const stores = [...database.objectStoreNames];
          const over = () => {
            database.close();
            done();
          };
          if (stores.length === 0) return over();
          const reading = database.transaction(stores);
          reading.oncomplete = over;
          reading.onabort = over;
          for (const store of stores) reading.objectStore(store).count();
          return undefined;
        };
      });
    }
  });
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

/** A picture of the whole page into test-output/pictures/NAME.png; `scale: 'css'` for a small one. */
export async function picture(page, name, options = {}) {
  const folder = path.join(output, 'pictures');
  await mkdir(folder, { recursive: true });
  const file = path.join(folder, `${name}.png`);
  await page.screenshot({ path: file, fullPage: true, timeout: 0, ...options });
  return file;
}

const axeSource = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/**
 * What axe-core finds against WCAG 2.2 A and AA, as `[{ id, help, nodes: [{ target, summary }] }]`;
 * an empty list where all is well. It comes in through the debugger, once a page, so the page's policy stays whole.
 * `rules` asks for some of its rules alone.
 */
export async function axe(page, rules) {
  const session = await page.context().newCDPSession(page);
  try {
    const there = await session.send('Runtime.evaluate', { expression: 'typeof globalThis.axe', returnByValue: true });
    if (there.result.value === 'undefined') await session.send('Runtime.evaluate', { expression: `${axeSource};0`, returnByValue: true });
    const only = Array.isArray(rules) ? { type: 'rule', values: rules } : { type: 'tag', values: ['wcag2a', 'wcag2aa', 'wcag22aa'] };
    const expression = `axe.run(document, {
      runOnly: ${JSON.stringify(only)},
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
      await tell(phone, error);
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

/** Adds to what went wrong what was to be seen then, in every window. */
async function tell(phone, error) {
  const words = [];
  for (const one of [...running].filter((each) => cameOf(each, phone))) {
    for (const page of one.context.pages()) words.push(await screen(page));
  }
  const said = `${error.message}\nOn the screen:\n${words.join('\n')}`;
  // The runner prints the message of a failed comparison, and the stack of anything else.
  error.stack = error.stack?.replace(error.message, () => said);
  error.message = said;
}

/** Address, title and first lines of a page, in a few words. */
export async function screen(page) {
  const look = page.evaluate(() => {
    const title = document.querySelector('h1')?.innerText ?? document.title;
    const text = (document.querySelector('dialog[open]') ?? document.querySelector('main') ?? document.body)?.innerText ?? '';
    const told = document.querySelector('.screen-deck [aria-live]')?.innerText ?? '';
    const lines = [...text.split('\n'), told].map((line) => line.trim()).filter(Boolean);
    return `${location.hash || location.href} "${title}": ${lines.join(' / ').slice(0, 500)}`;
  });
  const late = pause(5_000, 'a page that does not answer', { ref: false });
  return Promise.race([look, late]).catch((trouble) => `a page that cannot be read: ${trouble.message.split('\n')[0]}`);
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
