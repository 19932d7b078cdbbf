// `cargo xtask bench` runs this: the program and the raw storage side by side in one browser, and a table of both.
//
// Milliseconds belong to the machine; the ratios are what is kept. Every figure is a median, the pair of it taken in
// turns with it. VELAMEN_URL says where the pages are, VELAMEN_SIZES how many lots, VELAMEN_DIST where the bytes are.
import { mkdtemp, readFile, readdir, rm } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { book, dayAt, deeds, lateKeys } from './book.mjs';

const require = createRequire(new URL('../browser/package.json', import.meta.url));
const { chromium } = require('playwright-core');

const home = new URL(process.env.VELAMEN_URL);
const sizes = (process.env.VELAMEN_SIZES ?? '1000,10000').split(',').map(Number);
const COLD_STARTS = Number(process.env.VELAMEN_COLD_STARTS ?? 5);
const PAIRS = Number(process.env.VELAMEN_PAIRS ?? 200);
const DIVIDED = [500, 5_000];

const flags = [
  '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync', '--disable-dev-shm-usage', '--enable-precise-memory-info',
  '--js-flags=--expose-gc',
];
const at = (device, file) => `${home.protocol}//${device}.localhost:${home.port}/${file}`;
const median = (numbers) => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)];
const share = (numbers, part) => [...numbers].sort((a, b) => a - b)[Math.min(numbers.length - 1, Math.floor(numbers.length * part))];

const say = (text) => process.stdout.write(`${text}\n`);
const table = [];
function tell(size, what, own, floor, unit = 'ms', note = '') {
  const ratio = floor === undefined ? '' : (own / floor).toFixed(2);
  const shown = (value) => (value === undefined ? '' : unit === 'ms' ? value.toFixed(value < 20 ? 2 : 0) : value.toFixed(0));
  table.push([String(size), what, shown(own), shown(floor), unit, ratio, note]);
  say(table.at(-1).join(' | '));
}

/** Runs at the moment a page offers itself, so that nothing before it is left out of a cold open. */
function watch() {
  for (const name of ['__bench', '__floors']) {
    Object.defineProperty(window, name, {
      configurable: true,
      set(api) {
        Object.defineProperty(window, name, { value: api });
        const boot = performance.now();
        const [, cold, date] = location.hash.match(/^#(cold)=(.*)$/) ?? [];
        if (!cold) return;
        window.__cold = (async () => {
          await api.open();
          const open = performance.now();
          const late = await api.overdue(date);
          const answered = performance.now();
          return { inner: api.inner?.(), boot, open: open - boot, answer: answered - open, whole: answered, late: late.map((task) => task.id) };
        })();
      },
    });
  }
}

async function launch(profile) {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    args: flags,
  });
  context.setDefaultTimeout(0);
  await context.addInitScript(watch);
  const page = context.pages()[0] ?? (await context.newPage());
  page.on('console', (line) => line.type() === 'error' && say(`  page: ${line.text()}`));
  page.on('pageerror', (error) => say(`  page: ${error}`));
  return { context, page };
}

/** Names with a slip of the finger each: a letter wrong, left out, two exchanged. */
const SLIPS = ['erythrostylun', 'paphiopedlum', 'sincoarna', 'tankervileae', 'Restrepia antenifera'];
/** As a finger flings a list: so far in each frame. */
const FLING_PX = 120;

/** The list of the stock in the program's own page: from the letters of a name to the rows, and flung from end to end. */
async function finding(page, size) {
  // A page behind another is painted once a second.
  await page.bringToFront();
  // On a phone: at a table the stock is another list.
  await page.setViewportSize({ width: 390, height: 844 });
  await page.goto(at('a', 'index.html#/stock'));
  await page.locator('.lot-row').first().waitFor();
  const found = await page.evaluate(async (slips) => {
    const field = document.querySelector('main input');
    const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set;
    const drawn = () => new Promise((done) => { requestAnimationFrame(() => setTimeout(done)); });
    const rows = () => [...document.querySelectorAll('.lot-row')].map((row) => row.textContent).join('|');
    const type = async (text) => {
      const [before, began] = [rows(), performance.now()];
      set.call(field, text);
      field.dispatchEvent(new Event('input', { bubbles: true }));
      do await drawn(); while (rows() === before);
      return performance.now() - began;
    };
    const took = [];
    for (const slip of slips) {
      const ms = await type(slip);
      const first = document.querySelector('.lot-row')?.textContent ?? '';
      took.push({ slip, ms, first });
      await type('');
    }
    return took;
  }, SLIPS);
  const meant = ['erythrostylum', 'Paphiopedilum', 'sincorana', 'tankervilleae', 'Restrepia antennifera'];
  for (const [nth, one] of found.entries()) {
    if (!one.first.includes(meant[nth])) throw new Error(`${one.slip} found ${one.first}`);
  }
  const each = found.map((one) => one.ms);
  tell(size, 'a misspelt name, from its last letter to the list', median(each), undefined, 'ms', `worst ${Math.max(...each).toFixed(0)}`);
  const frames = await page.evaluate(async (by) => {
    const box = document.querySelector('main');
    const gaps = [];
    let last = await new Promise(requestAnimationFrame);
    const rows = document.querySelectorAll('.lot-row').length;
    for (;;) {
      const from = box.scrollTop;
      box.scrollTop += by;
      const now = await new Promise(requestAnimationFrame);
      gaps.push(now - last);
      last = now;
      if (box.scrollTop === from) return { gaps, rows };
    }
  }, FLING_PX);
  const late = frames.gaps.filter((gap) => gap > 50).length;
  tell(size, 'the list flung from end to end, a frame', share(frames.gaps, 0.95), undefined, 'ms', `95 of 100; worst ${Math.max(...frames.gaps).toFixed(0)}, ${late} of ${frames.gaps.length} over 50; ${frames.rows} rows drawn`);
}

/** Every object the page no longer needs is gone before its memory is read. */
async function memory(page) {
  return page.evaluate(async () => {
    globalThis.gc?.();
    const own = (await window.__bench?.memory?.()) ?? 0;
    return (performance.memory.usedJSHeapSize + own) / 1e6;
  });
}

async function coldOpens(profile, made, size, which) {
  const found = { own: [], floor: [] };
  for (let turn = 0; turn < COLD_STARTS; turn += 1) {
    const date = dayAt(Math.round((Math.random() - 0.4) * 400));
    const wanted = JSON.stringify(lateKeys(made.tasks, date));
    const pages = [['own', 'bench.html'], ['floor', 'floors.html']];
    if (turn % 2) pages.reverse();
    for (const [who, file] of pages) {
      // A browser of its own for each: the second would find the process warm.
      const { context, page } = await launch(profile);
      await page.goto(at('a', `${file}#cold=${date}`));
      const cold = await page.evaluate(() => window.__cold);
      if (JSON.stringify(cold.late) !== wanted) throw new Error(`${file} answered ${cold.late.length} late tasks for ${date}, wrongly`);
      const first = await memory(page);
      // The rest of the book is read behind the first screen.
      const read = await page.evaluate(async () => {
        const begins = performance.now();
        await window.__bench?.ready?.();
        return performance.now() - begins;
      });
      found[who].push({ ...cold, module: cold.inner?.module ?? 0, memory: first, read, all: await memory(page) });
      await context.close();
    }
  }
  const of = (who, what) => median(found[who].map((one) => one[what]));
  const parts = `page ${of('own', 'boot').toFixed(0)} + open ${of('own', 'open').toFixed(0)} (module ${of('own', 'module').toFixed(0)}) + answer ${of('own', 'answer').toFixed(0)}`;
  tell(size, `cold open${which}, against one JSON blob`, of('own', 'whole'), of('floor', 'whole'), 'ms', parts);
  tell(size, `memory at that moment${which}, against the blob`, of('own', 'memory'), of('floor', 'memory'), 'MB');
  tell(size, `memory once the whole book is read${which}, against the blob`, of('own', 'all'), of('floor', 'all'), 'MB', `read ${of('own', 'read').toFixed(0)} ms after the late list`);
}

/** From the beginning of the page to the frame with the first row of work, in the program as a grower opens it. */
async function firstRows(profile, size) {
  const took = [];
  for (let turn = 0; turn < COLD_STARTS; turn += 1) {
    const { context, page } = await launch(profile);
    await page.addInitScript(() => {
      window.__row = new Promise((seen) => {
        const look = () => {
          if (!document.querySelector('.work')) return;
          watching.disconnect();
          requestAnimationFrame(() => setTimeout(() => seen(performance.now())));
        };
        const watching = new MutationObserver(look);
        watching.observe(document, { childList: true, subtree: true });
      });
    });
    await page.goto(at('a', 'index.html#/round'));
    took.push(await page.evaluate(() => window.__row));
    await context.close();
  }
  tell(size, 'from navigation to the first row of the Round, painted', median(took), undefined, 'ms', `worst ${Math.max(...took).toFixed(0)}`);
}

async function measure(size) {
  const profile = await mkdtemp(path.join(tmpdir(), 'velamen-bench-'));
  const made = book(size);
  try {
    let { context, page } = await launch(profile);
    await page.goto(at('a', 'bench.html'));
    const seeded = await page.evaluate(async (lots) => {
      const { book } = await import('./book.mjs');
      const made = book(lots);
      await window.__bench.open();
      const began = performance.now();
      await window.__bench.seed(made);
      return performance.now() - began;
    }, size);
    tell(size, 'filling an empty book', seeded);
    // What is kept of the Round is written behind the screen: a morning finds it there.
    await page.evaluate(async () => {
      const db = await new Promise((done) => { indexedDB.open('velamen').onsuccess = (event) => done(event.target.result); });
      const count = () => new Promise((done) => { db.transaction('snapshot').objectStore('snapshot').count().onsuccess = (event) => done(event.target.result); });
      while ((await count()) === 0) await new Promise((later) => { setTimeout(later, 50); });
      db.close();
    });
    await page.goto(at('a', 'floors.html'));
    await page.evaluate(async (lots) => {
      const { book } = await import('./book.mjs');
      await window.__floors.keep(book(lots));
    }, size);
    await context.close();

    await coldOpens(profile, made, size, '');
    await firstRows(profile, size);

    // Files, and the book on an empty phone.
    ({ context, page } = await launch(profile));
    await page.goto(at('a', 'bench.html'));
    const whole = await page.evaluate(async () => {
      await window.__bench.open();
      await window.__bench.mark();
      const began = performance.now();
      const bytes = await window.__bench.exportFile();
      window.whole = bytes;
      return { ms: performance.now() - began, bytes: bytes.length };
    });
    const plain = gzipSync(JSON.stringify(made)).length;
    tell(size, 'whole file, against gzip of plain JSON', whole.bytes / 1000, plain / 1000, 'kB', `${whole.ms.toFixed(0)} ms`);
    const other = await context.newPage();
    await other.goto(at('b', 'bench.html'));
    const file = await page.evaluate(() => {
      let text = '';
      for (let from = 0; from < window.whole.length; from += 32_768) {
        text += String.fromCharCode(...window.whole.subarray(from, from + 32_768));
      }
      return btoa(text);
    });
    const taken = await other.evaluate(async ({ file, date }) => {
      const bytes = Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0));
      await window.__bench.open();
      const began = performance.now();
      await window.__bench.importFile(bytes);
      const late = await window.__bench.overdue(date);
      return { ms: performance.now() - began, late: late.map((task) => task.id) };
    }, { file, date: dayAt(3) });
    if (JSON.stringify(taken.late) !== JSON.stringify(lateKeys(made.tasks, dayAt(3)))) throw new Error('the phone that took the book in answers wrongly');
    tell(size, 'whole book into an empty phone, to the next late list', taken.ms);

    // What the other phone did, taken in here.
    for (const count of DIVIDED) {
      // Chores done once are not done again by the second list.
      const list = deeds(made, count, `b${count}`).map((deed) => (count === DIVIDED[0] ? deed : { ...deed, done: null }));
      const change = await other.evaluate(async (list) => {
        const mark = await window.__bench.mark();
        await window.__bench.recordMany(list);
        const bytes = await window.__bench.exportFile(mark);
        let text = '';
        for (let from = 0; from < bytes.length; from += 32_768) text += String.fromCharCode(...bytes.subarray(from, from + 32_768));
        return { file: btoa(text), bytes: bytes.length };
      }, list);
      const plainOf = gzipSync(JSON.stringify(list)).length;
      tell(size, `file of ${count} entries, against gzip of plain JSON`, change.bytes / 1000, plainOf / 1000, 'kB');
      const ms = await page.evaluate(async ({ file, date }) => {
        const bytes = Uint8Array.from(atob(file), (letter) => letter.charCodeAt(0));
        const began = performance.now();
        await window.__bench.importFile(bytes);
        await window.__bench.overdue(date);
        return performance.now() - began;
      }, { file: change.file, date: dayAt(0) });
      tell(size, `taking in ${count} entries, to the next late list`, ms);
    }
    const same = await Promise.all([page, other].map((one) => one.evaluate(async () => JSON.stringify(await window.__bench.dump()))));
    if (same[0] !== same[1]) throw new Error('the two phones hold different books');

    // Taps: a command of the program and a raw row of the same bytes, in turns.
    const mine = deeds(book(size), PAIRS, 'a', 11).map((deed) => ({ ...deed, done: null }));
    const taps = await page.evaluate(async (list) => {
      await import('./floors.mjs');
      const before = await window.__bench.mark();
      await window.__bench.record(list[0]);
      const line = (await window.__bench.lastLine()) ?? '';
      const own = [];
      const floor = [];
      const frames = [];
      for (const deed of list.slice(1)) {
        let began = performance.now();
        await window.__bench.record(deed);
        own.push(performance.now() - began);
        began = performance.now();
        await new Promise((shown) => requestAnimationFrame(() => setTimeout(shown)));
        frames.push(performance.now() - began);
        began = performance.now();
        await window.__floors.tap(line);
        floor.push(performance.now() - began);
      }
      return { own, floor, frames, before };
    }, mine);
    tell(size, 'one tap durable, against a raw strict row', median(taps.own), median(taps.floor), 'ms', `p95 ${share(taps.own, 0.95).toFixed(2)} against ${share(taps.floor, 0.95).toFixed(2)}, worst ${Math.max(...taps.own).toFixed(1)}`);
    await finding(page, size);
    await context.close();
  } finally {
    await rm(profile, { recursive: true, force: true, maxRetries: 20, retryDelay: 100 });
  }
}

const dist = process.env.VELAMEN_DIST;
for (const name of dist ? await readdir(dist) : []) {
  if (/\.(wasm|js)$/.test(name)) {
    const bytes = await readFile(path.join(dist, name));
    tell('', `to download: ${name.replace(/-[0-9a-f]{8,}/, '')}, gzip`, gzipSync(bytes, { level: 9 }).length / 1000, undefined, 'kB');
  }
}
for (const size of sizes) await measure(size);

const heads = ['lots', 'what', 'own', 'floor', 'unit', 'ratio', 'of it'];
const widths = heads.map((head, column) => Math.max(head.length, ...table.map((cells) => cells[column].length)));
const rowOf = (cells) => `| ${cells.map((cell, column) => cell.padEnd(widths[column])).join(' | ')} |`;
say(`\n${rowOf(heads)}\n${rowOf(widths.map((width) => '-'.repeat(width)))}`);
for (const cells of table) say(rowOf(cells));
