// The walk through every screen: which there are, and what is looked at on each: nothing wider than the window, every
// target large enough, nothing axe minds, a picture to look at.
import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import { go } from './hand.mjs';
import { axe, picture } from './harness.mjs';

const book = fileURLToPath(new URL('../golden/book-1.txt', import.meta.url));
const fixed = ['#/', '#/round/plan', '#/round/seen', '#/round/task', '#/round/day', '#/round/climate', '#/repot', '#/repot/new', '#/repot/new/cut', '#/repot/prepare', '#/repot/hands', '#/help/round', '#/help/install', '#/stock/benches', '#/stock/outlook',
  '#/treat', '#/treat/record', '#/treat/log', '#/treat/apply', '#/stock', '#/stock/new', '#/stock/list', '#/stock/labels', '#/stock/find', '#/stock/lists', '#/book', '#/book/files',
  '#/book/photographs', '#/book/show', '#/book/read', '#/book/folder', '#/book/phones',
  '#/book/questions', '#/shed', '#/shed/places', '#/shed/pots', '#/shed/mixes', '#/shed/measures',
  '#/shed/products', '#/shed/rotation', '#/shed/protocols', '#/shed/phone', '#/shed/origins', '#/shed/wash',
  '#/shed/batches', '#/shed/buy', '#/round/water', '#/shed/feeds', '#/shed/feeds/none', '#/shed/prices'];

async function show(page, hash) {
  await go(page, hash);
  await page.locator('h1').first().waitFor();
}

/** One of each kind of page that belongs to a thing, found by the links of the lists. */
async function found(page, list, pattern) {
  await show(page, list);
  const hrefs = await page.locator('a[href]').evaluateAll((links) => links.map((link) => link.getAttribute('href')));
  return hrefs.filter((href) => pattern.test(href));
}

/** Takes in a book in which everything the vocabulary can say has happened, and gives every screen as `[name, hash]`. */
export async function screens(page) {
  await page.getByRole('link', { name: 'From a file' }).click();
  await page.locator('input[type=file]').setInputFiles(book);
  await page.getByRole('button', { name: 'Take it in' }).click();
  await page.getByRole('heading', { level: 1, name: 'Round' }).waitFor();
  await show(page, '#/repot/new');
  await page.getByRole('button', { name: 'Not in the book' }).click();
  await page.getByRole('button', { name: 'Open it' }).click();
  await page.getByText('To flower').first().waitFor();
  // What was told would stand over what is looked at.
  await page.locator('.notice-ok').waitFor({ state: 'detached' });
  const [lot] = await found(page, '#/stock', /^#\/lot\/[^/]+$/);
  const [entry] = await found(page, '#/book', /^#\/entry\//);
  const [clump] = await found(page, '#/repot', /^#\/repot\/(?!new)[^/]+$/);
  const [place] = await found(page, '#/shed/places', /^#\/shed\/places\/./);
  const [bench] = await found(page, '#/round/water', /^#\/round\/water\/./);
  const [protocol] = await found(page, '#/shed/protocols', /^#\/shed\/protocols\/./);
  const things = { lot, entry, clump, place, 'water-bench': bench, protocol };
  for (const [kind, hash] of Object.entries(things)) assert.ok(hash, `the book shows no ${kind}`);
  return [
    ...fixed.map((hash) => [hash.replace(/\W+/g, '-').replace(/^-|-$/g, '') || 'round', hash]),
    ...Object.entries(things),
    ['place-seen', place.replace(/^#\/shed\/places\/(.+)$/, '#/place/$1/seen')],
    ['feeding', bench.replace('/water/', '/feed/')],
    ['lot-seen', `${lot}/seen`], ['clump-seen', `${clump}/seen`],
    ['lot-papers', `${lot}/papers`], ['lot-cut', `${lot}/cut`], ['clump-cut', `${clump}/cut`],
    ['lot-line', `${lot}/line`], ['lot-cost', `${lot}/cost`], ['lot-test', `${lot}/test`], ['lot-trace', `${lot}/trace`],
  ];
}

/**
 * What is smaller than a finger, as words. 48 px is asked for, and 24 px of
 * - links that stand in a line of text, whose height is the line's, and
 * - boxes to tick in a line of a table, which is for a mouse.
 * An input that lies over its label, or fills a box, is as large as that.
 */
export function tooSmall(page) {
  return page.evaluate(() => {
    const targets = document.querySelectorAll('a[href], button, input, select, textarea, summary');
    const small = [];
    for (const target of targets) {
      if (!target.checkVisibility({ visibilityProperty: true }) || target.closest('[aria-hidden=true]')) continue;
      const whole = target.closest('.choice, .toggle, .photo-key, .field-box, .file') ?? target;
      const { width, height } = whole.getBoundingClientRect();
      const inText = target.matches('a') && getComputedStyle(target).display === 'inline' && !target.closest('svg');
      const least = inText || target.matches('.lines input') ? 24 : 48;
      if (Math.min(width, height) < least - 0.5) {
        small.push(`${target.tagName.toLowerCase()}.${target.className.baseVal ?? target.className} "${(target.ariaLabel ?? target.textContent).trim().slice(0, 30)}" ${Math.round(width)}x${Math.round(height)}`);
      }
    }
    return small;
  });
}

/** How far what is on the screen reaches past it, in either column. */
export function tooWide(page) {
  return page.evaluate(() => [document.documentElement, ...document.querySelectorAll('main, .beside .screen-body')]
    .filter((one) => one.scrollWidth > one.clientWidth)
    .map((one) => `${one.tagName} by ${one.scrollWidth - one.clientWidth}`));
}

/** Turns the program to a language, as Shed, This phone does. */
async function speak(page, language) {
  await page.evaluate((chosen) => {
    const liked = JSON.parse(localStorage.getItem('velamen.preferences') ?? '{}');
    localStorage.setItem('velamen.preferences', JSON.stringify({ ...liked, language: chosen }));
  }, language);
  await page.reload();
  await page.locator(`html[lang=${language}]`).waitFor();
  await page.getByRole('navigation').waitFor();
}

/** Every screen in one look; what is wrong anywhere is told at the end, all of it. */
export async function walk(page, all, look) {
  await page.setViewportSize({ width: look.width, height: look.height });
  await page.emulateMedia({ colorScheme: look.dark ? 'dark' : 'light', forcedColors: look.forced ? 'active' : 'none' });
  if (look.language) await speak(page, look.language);
  await page.evaluate((size) => { document.documentElement.style.fontSize = size; }, look.text ?? '');
  const wrong = [];
  for (const [name, hash] of all) {
    await show(page, hash);
    await picture(page, `${look.name}-${name}`, { scale: 'css' });
    for (const one of await tooWide(page)) wrong.push(`${name} is too wide: ${one}`);
    for (const one of await tooSmall(page)) wrong.push(`${name} has a small target: ${one}`);
    if (look.axe) for (const one of await axe(page, look.axe)) wrong.push(`${name}: ${JSON.stringify(one)}`);
  }
  assert.deepEqual(wrong, []);
}
