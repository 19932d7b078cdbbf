// Help is one tap away on every screen, before the book is opened too, and one tap leads back; the cards for the hands.
import assert from 'node:assert/strict';
import { go, press, title } from './hand.mjs';
import { axe, phoneTest, picture } from './harness.mjs';

const help = (page) => page.getByRole('link', { name: 'Help with this screen' });

for (const colorScheme of ['light', 'dark']) phoneTest(`help stands beside every screen and leads back to it, ${colorScheme}`, { colorScheme, scale: 1 }, async ({ page, complaints }) => {
  await help(page).click();
  await title(page, 'Beginning');
  await picture(page, `help-start-${colorScheme}`);
  assert.deepEqual(await axe(page), []);
  await page.getByRole('link', { name: 'Back to where you were' }).click();
  await press(page, 'Look around in an example');
  await title(page, 'Round');

  const screens = [['#/round', 'The Round'], ['#/repot', 'Repot'], ['#/treat', 'Treat'], ['#/stock', 'Stock'], ['#/stock/list', 'A list you have'],
    ['#/book', 'The Book'], ['#/book/files', 'Handing over and taking in'], ['#/shed', 'The Shed'], ['#/shed/wash', 'The wash'],
    ['#/shed/products', 'Products'], ['#/round/climate', 'Minimum and maximum']];
  for (const [hash, name] of screens) {
    await go(page, hash);
    const before = await page.waitForFunction((to) => location.hash === to && document.querySelector('h1')?.textContent, hash).then((it) => it.jsonValue());
    const box = await help(page).boundingBox();
    assert.ok(box.width >= 48 && box.height >= 48 && box.x + box.width <= 390, `${hash}: ${JSON.stringify(box)}`);
    await help(page).click();
    await title(page, name);
    assert.deepEqual(await axe(page), [], name);
    await page.getByRole('link', { name: 'Back to where you were' }).click();
    await title(page, before);
  }
  assert.deepEqual(complaints, []);
});

for (const [width, colorScheme] of [[390, 'light'], [320, 'dark']]) phoneTest(`the cards show how the hands do it, ${width} wide`, { width, colorScheme, scale: 1 }, async ({ page, complaints }) => {
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await go(page, '#/repot');
  await title(page, 'Repot');
  await page.getByRole('link', { name: 'How the hands do it' }).click();
  await title(page, 'How the hands do it');
  assert.equal(await page.locator('.drawing svg[role=img][aria-label]').count(), 7);
  await picture(page, `cards-${width}`);
  assert.deepEqual(await axe(page), []);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0);
  assert.deepEqual(complaints, []);
});

for (const [width, colorScheme] of [[390, 'light'], [320, 'dark']]) phoneTest(`how to put it on the home screen is drawn, before there is a book too, ${width} wide`, { width, colorScheme, scale: 1 }, async ({ page, complaints }) => {
  await help(page).click();
  await title(page, 'Beginning');
  await page.getByRole('link', { name: 'Put it on the home screen' }).click();
  await title(page, 'On the home screen');
  await page.getByRole('link', { name: 'Back to where you were' }).click();
  await press(page, 'Look around in an example');
  await title(page, 'Round');
  await go(page, '#/shed/phone');
  await title(page, 'This phone');
  await page.getByText(/^New in this version: /).waitFor();
  await page.getByRole('link', { name: 'Put it on the home screen' }).click();
  await title(page, 'On the home screen');
  assert.equal(await page.locator('.drawing svg[role=img][aria-label]').count(), 3);
  await picture(page, `install-${width}`);
  assert.deepEqual(await axe(page), []);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  assert.equal(wide, 0);
  await page.getByRole('link', { name: 'Back to where you were' }).click();
  await title(page, 'This phone');
  assert.deepEqual(complaints, []);
});
