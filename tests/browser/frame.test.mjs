// What is around every screen: where the focus goes when one screen takes the place of another, and how much of the
// narrowest phone a notice may take.
import assert from 'node:assert/strict';
import { eventually, press, room, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

const focused = (page, words) =>
  page.waitForFunction((text) => document.activeElement?.tagName === 'H1' && document.activeElement.textContent === text, words);

async function startBook(page) {
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await page.getByRole('button', { name: 'Start my book' }).click();
  await title(page, 'Round');
}

phoneTest('a screen that takes the place of another begins at its heading, and nothing scrolls', {}, async ({ page, complaints }) => {
  await startBook(page);
  await room(page, 'Book');
  await title(page, 'Book');
  await page.getByRole('link', { name: 'The Shed' }).click();
  await focused(page, 'Shed');
  assert.equal(await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle), 'none');
  await page.getByRole('link', { name: 'Protocols' }).click();
  await focused(page, 'Protocols');
  await eventually(page, async () => assert.deepEqual(await page.evaluate(() => [window.scrollY, document.querySelector('main').scrollTop]), [0, 0]));
  // From the heading a keyboard goes on past the way to help into the screen.
  await page.keyboard.press('Tab');
  await eventually(page, async () => assert.equal(await page.evaluate(() => document.activeElement.getAttribute('aria-label')), 'Help with this screen'));
  await page.keyboard.press('Tab');
  await eventually(page, async () => assert.ok(await page.evaluate(() => document.querySelector('main').contains(document.activeElement))));
  await page.goBack();
  await focused(page, 'Shed');
  assert.deepEqual(complaints, []);
});

phoneTest('a notice leaves the narrowest phone its screen', { width: 320, height: 568 }, async ({ page }) => {
  await startBook(page);
  await room(page, 'Stock');
  await page.getByRole('link', { name: 'Add a lot' }).first().click();
  await page.getByLabel('Name of the plant').fill('Cymbidium lowianum');
  await page.getByLabel('Name of the new place').fill('Cool house, bench 2');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
  // Both at one look: the notice leaves by itself.
  const { notice, key } = await page.waitForFunction(() => {
    const [notice, key] = ['.notice', '.notice-key'].map((one) => document.querySelector(one)?.getBoundingClientRect().toJSON());
    return notice && key && { notice, key };
  }).then((both) => both.jsonValue());
  await picture(page, 'notice-narrow');
  assert.deepEqual(await axe(page), []);
  assert.ok(notice.height <= 568 / 7, `${notice.height} px`);
  assert.ok(key.height >= 44 && key.x + key.width <= 320, 'the key is whole');
});

phoneTest('the Shed says where its figures come from', {}, async ({ page }) => {
  await startBook(page);
  await room(page, 'Book');
  await page.getByRole('link', { name: 'The Shed' }).click();
  await page.getByRole('link', { name: 'Where the figures come from' }).click();
  await title(page, 'Where the figures come from');
  await picture(page, 'origins');
  for (const summary of await page.locator('details summary').all()) await summary.click();
  await page.getByText(/NIST Handbook 44/).first().waitFor();
  await page.getByText(/HortScience/).first().waitFor();
  await page.getByText('These are common practice, no source.').waitFor();
  await picture(page, 'origins-open');
  assert.deepEqual(await axe(page), []);
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), 0);
  // The swatches of the look stay out of a release.
  await page.evaluate(() => { location.hash = '#/kit'; });
  await title(page, 'Round');
});
