// `cargo xtask bench --hand` runs this: the program in a hand, on a processor six times slower, with a large book. What a
// tap takes until its effect is on the glass is told by the browser itself (Event Timing); what scrolling is held up by,
// too (Long Tasks); and a room is open when its heading and what stands under it were painted.
//
// Milliseconds belong to the machine. VELAMEN_URL says where the pages are, VELAMEN_SIZES how many lots.
import { mkdtemp, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';

const require = createRequire(new URL('../browser/package.json', import.meta.url));
const { chromium } = require('playwright-core');

const home = new URL(process.env.VELAMEN_URL);
const sizes = (process.env.VELAMEN_SIZES ?? '10000').split(',').map(Number);
const SLOWER = Number(process.env.VELAMEN_SLOW ?? 6);
/** The Event Timing API reports nothing shorter. */
const LEAST_MS = 16;

const flags = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync', '--disable-dev-shm-usage'];
const at = (file) => `${home.protocol}//hand.localhost:${home.port}/${file}`;
const say = (text) => process.stdout.write(`${text}\n`);

const table = [];
function tell(...cells) {
  table.push(cells.map(String));
  say(cells.join(' | '));
}

/** Runs in the page before the program: every interaction, every long task, and how often a finger or a key went down. */
function watch() {
  const seen = { events: new Map(), long: [], pressed: 0, opened: null };
  window.__seen = seen;
  new PerformanceObserver((list) => {
    for (const { interactionId, duration, name } of list.getEntries()) {
      if (!interactionId) continue;
      const before = seen.events.get(interactionId);
      if (!before || before.duration < duration) seen.events.set(interactionId, { duration, name });
    }
  }).observe({ type: 'event', durationThreshold: 16, buffered: true });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) seen.long.push(duration);
  }).observe({ type: 'longtask', buffered: true });
  for (const name of ['pointerdown', 'keydown']) addEventListener(name, () => { seen.pressed += 1; }, true);
  // From the tap until the screen of this heading, and what it shows first, has been painted.
  window.__until = (heading, inside) => new Promise((done) => {
    addEventListener('click', (event) => {
      const look = () => {
        // Asked just before a paint: what is there then is on the glass after it.
        const there = document.querySelector('h1')?.textContent === heading && document.querySelector(inside);
        if (there) setTimeout(() => done(performance.now() - event.timeStamp));
        else requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
    }, { capture: true, once: true });
  });
}

const share = (numbers, part) => [...numbers].sort((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(numbers.length * part))] ?? 0;

async function measure(size) {
  const profile = await mkdtemp(path.join(tmpdir(), 'velamen-hand-'));
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    args: flags,
    viewport: { width: 390, height: 844 },
    deviceScaleFactor: 2,
    isMobile: true,
    hasTouch: true,
  });
  context.setDefaultTimeout(0);
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    page.on('pageerror', (error) => say(`  page: ${error}`));
    await page.goto(at('bench.html'));
    await page.evaluate(async (lots) => {
      const { book } = await import('./book.mjs');
      await window.__bench.open();
      await window.__bench.seed(book(lots));
    }, size);
    await context.addInitScript(watch);
    await page.goto(at('index.html#/'));
    await page.locator('.work-what').first().waitFor();
    await page.getByRole('navigation').getByRole('link', { name: 'Book' }).waitFor();
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER });

    const settle = () => page.evaluate(() => new Promise((done) => requestIdleCallback(done, { timeout: 5_000 })));
    const reset = async () => {
      await settle();
      await page.evaluate(() => {
        window.__seen.events.clear();
        window.__seen.long.length = 0;
        window.__seen.pressed = 0;
      });
    };
    /** What the taps of `work` took until the next paint, and what held them up. */
    const taps = async (what, work) => {
      await reset();
      await work();
      await settle();
      await page.waitForTimeout(300);
      const { durations, long, pressed, slowest } = await page.evaluate(() => {
        const all = [...window.__seen.events.values()].sort((a, b) => b.duration - a.duration);
        return { durations: all.map((one) => one.duration), long: [...window.__seen.long], pressed: window.__seen.pressed, slowest: all[0]?.name ?? '' };
      });
      while (durations.length < pressed) durations.push(LEAST_MS);
      tell(size, what, durations.length, share(durations, 0.5).toFixed(0), share(durations, 0.95).toFixed(0), `${Math.max(...durations).toFixed(0)}${slowest && ` (${slowest})`}`, `${long.length}${long.length ? `, worst ${Math.max(...long).toFixed(0)}` : ''}`);
      return durations;
    };
    /** A finger comes down where something stands: looked up before, so that nothing else runs in the page at the tap. */
    const finger = async (thing) => {
      await thing.scrollIntoViewIfNeeded();
      const { x, y, width, height } = await thing.boundingBox();
      await settle();
      await page.touchscreen.tap(x + width / 2, y + height / 2);
    };
    const room = (name) => page.getByRole('navigation').getByRole('link', { name });
    const opening = async (name, inside) => {
      await reset();
      const opened = page.evaluate(([heading, part]) => window.__until(heading, part), [name, inside]);
      await finger(room(name));
      return opened;
    };
    // Any other room waits for the book, which is still being read behind the first screen.
    tell(size, 'the first other room, while the book is read', 1, '', '', (await opening('Stock', '.lot-row')).toFixed(0), '');
    await page.waitForTimeout(3_000);

    const rooms = [['Stock', '.lot-row'], ['Book', '.entry'], ['Treat', '.screen-body'], ['Repot', '.screen-body'], ['Round', '.work-what']];
    const all = [];
    for (const [name, inside] of rooms) {
      const times = [];
      for (let turn = 0; turn < 5; turn += 1) {
        await finger(room(name === 'Round' ? 'Stock' : 'Round'));
        await page.waitForTimeout(1_500);
        times.push(await opening(name, inside));
        await page.waitForTimeout(300);
      }
      tell(size, `opening ${name}, to its paint`, times.length, share(times, 0.5).toFixed(0), share(times, 0.95).toFixed(0), Math.max(...times).toFixed(0), '');
    }
    const toRoom = async (name, inside) => {
      await finger(room(name));
      await page.locator(inside).first().waitFor();
      await page.waitForTimeout(1_000);
    };
    await toRoom('Round', '.work-what');
    all.push(...await taps('done, on the Round', async () => {
      for (let turn = 0; turn < 8; turn += 1) {
        await finger(page.locator('.work-do').nth(turn % 3));
        await page.waitForTimeout(700);
      }
    }));
    await toRoom('Stock', '.lot-row');
    all.push(...await taps('letters, in the search of the stock', async () => {
      await finger(page.getByLabel('Find a lot'));
      for (const letter of 'stanhopea') {
        await page.keyboard.press(letter);
        await page.waitForTimeout(250);
      }
    }));
    all.push(...await taps('a lot, and what changed of it', async () => {
      for (let turn = 0; turn < 4; turn += 1) {
        await finger(page.locator('.lot-row').nth(turn));
        await page.getByRole('button', { name: 'Change', exact: true }).waitFor();
        await page.waitForTimeout(400);
        await finger(page.getByRole('button', { name: 'Change', exact: true }));
        await page.waitForTimeout(400);
        await finger(page.locator('dialog[open] .sheet-close'));
        await page.waitForTimeout(400);
        await page.goBack();
        await page.locator('.lot-row').first().waitFor();
        await page.waitForTimeout(400);
      }
    }));
    await page.evaluate(() => { location.hash = '#/stock/new'; });
    await page.getByRole('button', { name: 'One more: Plants', exact: true }).waitFor();
    const more = await page.getByRole('button', { name: 'One more: Plants', exact: true }).boundingBox();
    all.push(...await taps('counting with the thumb', async () => {
      for (let turn = 0; turn < 20; turn += 1) {
        await page.touchscreen.tap(more.x + more.width / 2, more.y + more.height / 2);
        await page.waitForTimeout(120);
      }
    }));
    await page.evaluate(() => { location.hash = '#/repot/new'; });
    await page.getByLabel('Name or code').waitFor();
    all.push(...await taps('choosing for the bench', async () => {
      await finger(page.getByLabel('Name or code'));
      for (const letter of 'laelia') {
        await page.keyboard.press(letter);
        await page.waitForTimeout(250);
      }
      for (let turn = 0; turn < 3; turn += 1) {
        await finger(page.locator('button.choose').nth(turn));
        await page.waitForTimeout(400);
      }
    }));
    tell(size, 'all taps and letters', all.length, share(all, 0.5).toFixed(0), share(all, 0.95).toFixed(0), Math.max(...all).toFixed(0), '');

    for (const [name, inside] of [['Round', '.work-what'], ['Stock', '.lot-row'], ['Book', '.entry']]) {
      await toRoom(name, inside);
      await page.waitForTimeout(1_500);
      await reset();
      for (let turn = 0; turn < 3; turn += 1) {
        await session.send('Input.synthesizeScrollGesture', { x: 195, y: 500, yDistance: -3_000, speed: 2_500, gestureSourceType: 'touch' });
      }
      await settle();
      const long = await page.evaluate(() => [...window.__seen.long]);
      tell(size, `scrolling the ${name}`, '', '', '', '', `${long.length}${long.length ? `, worst ${Math.max(...long).toFixed(0)}` : ''}`);
    }
    // What the browser itself takes: one key on a bare page, which changes its own words.
    await page.goto(at('manifest.webmanifest'));
    await page.evaluate(() => {
      const key = Object.assign(document.createElement('button'), { textContent: '0', style: 'position:fixed;inset:0' });
      key.onclick = () => { key.textContent = String(Number(key.textContent) + 1); };
      document.body.replaceChildren(key);
    });
    await taps('a bare page with one key', async () => {
      for (let turn = 0; turn < 20; turn += 1) {
        await page.touchscreen.tap(195, 420);
        await page.waitForTimeout(150);
      }
    });
  } finally {
    await context.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  }
}

for (const size of sizes) await measure(size);
const heads = ['lots', `${SLOWER} times slower`, 'taps', 'p50 ms', 'p95 ms', 'worst ms', 'long tasks'];
const widths = heads.map((head, column) => Math.max(head.length, ...table.map((cells) => cells[column].length)));
const rowOf = (cells) => `| ${cells.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`;
say(`\n${rowOf(heads)}\n${rowOf(widths.map((width) => '-'.repeat(width)))}`);
for (const cells of table) say(rowOf(cells));
