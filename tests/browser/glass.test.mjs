// At the bench: the glass locked against drips, the screen kept on, no tones, the light of the camera, and everything in
// the reach of a left thumb.
import assert from 'node:assert/strict';
import { fileURLToPath } from 'node:url';
import { eventually, go, press, startBook, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

const golden = fileURLToPath(new URL('../golden/book-1.txt', import.meta.url));
const lock = (page) => page.getByRole('dialog', { name: 'Locked against drips' });
const state = (page, label) => page.getByRole('switch', { name: new RegExp(`^${label}`) });

async function addTask(page, words) {
  await go(page, '#/round/task');
  await page.getByLabel('What is to be done').fill(words);
  await press(page, 'Add this task');
  await title(page, 'Round');
  await page.getByText(words, { exact: true }).first().waitFor();
}

async function like(page, label) {
  await go(page, '#/shed/phone');
  await title(page, 'This phone');
  await state(page, label).check({ force: true });
}

/** A finger that goes down at the first key and is slid over the others. */
async function slide(page) {
  const session = await page.context().newCDPSession(page);
  const at = async (name) => {
    const box = await page.getByRole('button', { name, exact: true }).boundingBox();
    return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  };
  const [one, two, three] = [await at('Unlock: 1 of 3'), await at('Unlock: 2 of 3'), await at('Unlock: 3 of 3')];
  await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: [one] });
  await session.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [two] });
  await session.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: [three] });
  await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  await session.detach();
}

for (const [colorScheme, width, height] of [['light', 390, 844], ['dark', 320, 568], ['light', 844, 390]]) phoneTest(`a locked glass answers to no drop and to the hand alone, ${colorScheme}, ${width}`, { colorScheme, width, height }, async ({ page, complaints }) => {
  await startBook(page);
  await addTask(page, 'Order bark');
  assert.equal(await page.getByRole('button', { name: 'Lock the glass' }).count(), 0, 'not before it is asked for');
  await like(page, 'A lock on every screen');
  await picture(page, `glass-likes-${width}`);
  assert.deepEqual(await axe(page), []);
  await go(page, '#/');
  await title(page, 'Round');
  const key = page.getByRole('button', { name: 'Lock the glass', exact: true });
  await key.tap();
  await lock(page).waitFor();
  await picture(page, `glass-locked-${colorScheme}-${width}`);
  assert.deepEqual(await axe(page), []);

  // Drops, all over the glass: the keys themselves in no order of theirs, the last one last.
  for (const across of [0.85, 0.5, 0.15, 0.85]) {
    for (const down of [0.2, 0.4, 0.6, 0.8, 0.95]) await page.touchscreen.tap(width * across, height * down);
  }
  await lock(page).waitFor();
  await page.keyboard.press('Escape');
  await lock(page).waitFor();
  await eventually(page, async () => assert.ok(await page.locator('.under-lock').evaluate((part) => part.inert)));

  await slide(page);
  await lock(page).waitFor({ state: 'detached' });
  await page.getByText('Order bark', { exact: true }).first().waitFor();
  await eventually(page, async () => assert.equal(await page.evaluate(() => document.activeElement?.getAttribute('aria-label')), 'Lock the glass', 'the focus is back'));

  // By the keyboard alone, as a screen reader goes too.
  await page.keyboard.press('Enter');
  await lock(page).waitFor();
  await eventually(page, async () => assert.equal(await page.evaluate(() => document.activeElement?.tagName), 'H2'));
  for (let step = 0; step < 3; step += 1) {
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
  }
  await lock(page).waitFor({ state: 'detached' });

  // And by three taps.
  await key.tap();
  await lock(page).waitFor();
  for (const step of [1, 2, 3]) await page.getByRole('button', { name: `Unlock: ${step} of 3`, exact: true }).tap();
  await lock(page).waitFor({ state: 'detached' });
  await eventually(page, async () => assert.equal(await page.locator('.work-what', { hasText: 'Order bark' }).count(), 1, 'nothing was done meanwhile'));
  assert.deepEqual(complaints, []);
});

const listening = () => {
  window.sounded = 0;
  const { createOscillator } = AudioContext.prototype;
  AudioContext.prototype.createOscillator = function heard(...given) {
    window.sounded += 1;
    return createOscillator.apply(this, given);
  };
  window.awake = 0;
  Object.defineProperty(Navigator.prototype, 'wakeLock', { get: () => ({
    request: async () => {
      window.awake += 1;
      return { release: async () => { window.awake -= 1; } };
    },
  }) });
};

phoneTest('tones and a screen that stays on are there as they are wanted, over a new start', { init: listening }, async ({ page, complaints }) => {
  await startBook(page);
  await addTask(page, 'Order bark');
  await eventually(page, async () => assert.ok((await page.evaluate(() => window.sounded)) > 0, 'it sounds'));
  assert.equal(await page.evaluate(() => window.awake), 0);
  await like(page, 'No tones');
  await like(page, 'Screen stays on');
  await eventually(page, async () => assert.equal(await page.evaluate(() => window.awake), 1));
  await page.reload();
  await title(page, 'This phone');
  await eventually(page, async () => assert.equal(await page.evaluate(() => window.awake), 1));
  const before = await page.evaluate(() => window.sounded);
  await addTask(page, 'Wash the tubs');
  assert.equal(await page.evaluate(() => window.sounded), before, 'no tone');
  await go(page, '#/shed/phone');
  await title(page, 'This phone');
  await state(page, 'Screen stays on').uncheck({ force: true });
  await eventually(page, async () => assert.equal(await page.evaluate(() => window.awake), 0));
  assert.deepEqual(complaints, []);
});

/** A camera with a light, which says how it was switched. */
const withLight = () => {
  window.lit = [];
  MediaStreamTrack.prototype.getCapabilities = () => ({ torch: true });
  MediaStreamTrack.prototype.applyConstraints = async ({ advanced }) => { window.lit.push(advanced[0].torch); };
};

phoneTest('the light of the camera is switched where labels are looked for', { init: withLight, permissions: ['camera'], flags: ['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream'] }, async ({ page }) => {
  await startBook(page);
  await go(page, '#/stock/find');
  await page.getByText('Hold the square on the label').or(page.locator('.scan-picture:not(.scan-shut)')).first().waitFor();
  const light = page.getByRole('switch');
  await light.check({ force: true });
  await eventually(page, async () => assert.deepEqual(await page.evaluate(() => window.lit), [true]));
  await picture(page, 'glass-light');
  await light.uncheck({ force: true });
  await eventually(page, async () => assert.deepEqual(await page.evaluate(() => window.lit), [true, false]));
});

phoneTest('on every screen the main key lies under the thumb that holds the phone', {}, async ({ page, complaints }) => {
  await page.getByRole('link', { name: 'From a file' }).click();
  await page.locator('input[type=file]').setInputFiles(golden);
  await page.getByRole('button', { name: 'Take it in' }).click();
  await title(page, 'Round');
  const screens = ['#/', '#/round/task', '#/repot', '#/repot/new', '#/treat/record', '#/stock', '#/stock/new', '#/stock/find', '#/round/climate', '#/shed/places', '#/shed/pots', '#/shed/wash'];
  const things = async (list, pattern) => {
    await go(page, list);
    const hrefs = await page.locator('a[href]').evaluateAll((links) => links.map((link) => link.getAttribute('href')));
    return hrefs.find((href) => pattern.test(href));
  };
  const lot = await things('#/stock', /^#\/lot\/[^/]+$/);
  const clump = await things('#/repot', /^#\/repot\/(?!new|hands|prepare)[^/]+$/);
  const bench = await things('#/round/water', /^#\/round\/water\/./);
  screens.push(...[lot, clump, bench].filter(Boolean));
  let pairs = 0;
  for (const hand of ['Right', 'Left']) {
    await go(page, '#/shed/phone');
    await title(page, 'This phone');
    await page.getByRole('radio', { name: hand, exact: true }).check({ force: true });
    for (const hash of screens) {
      await go(page, hash);
      await page.locator('h1').first().waitFor();
      const keys = await page.locator('.screen-deck .actions > .action').evaluateAll((all) => all.map((key) => {
        const { x, y, width } = key.getBoundingClientRect();
        return { main: key.classList.contains('action-main'), x, y, width };
      }));
      const main = keys.find((key) => key.main);
      for (const other of keys.filter((key) => main && !key.main && Math.abs(key.y - main.y) < 4)) {
        pairs += 1;
        assert.ok(hand === 'Left' ? main.x < other.x : main.x > other.x, `${hand} hand at ${hash}`);
      }
      // The keys of a row too: done, one more.
      const rows = await page.locator('.work-do, .count-more, .bench-row .action').evaluateAll((all) => all.map((key) => {
        const { x, width } = key.getBoundingClientRect();
        return width === 0 || x + width / 2 > innerWidth / 2 ? 'Right' : 'Left';
      }));
      assert.deepEqual(rows.filter((side) => side !== hand), [], `${hand} hand at ${hash}`);
      if (hand === 'Left') await picture(page, `left-${hash.replace(/\W+/g, '-').slice(0, 24)}`);
    }
  }
  assert.ok(pairs >= 8, `${pairs} pairs of keys`);
  assert.deepEqual(complaints, []);
});
