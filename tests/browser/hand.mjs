// A hand on the phone: the few things every test does with a page, and the patience of an eye.
import assert from 'node:assert/strict';
import { setTimeout as pause } from 'node:timers/promises';
import { screen } from './harness.mjs';

/** Presses a key by its exact name. Main keys wait out the moment in which a second tap would be taken for a bounce. */
export async function press(page, name) {
  if (!name.startsWith('One ')) await page.waitForTimeout(400);
  await page.getByRole('button', { name, exact: true }).click();
}

/** Presses the same key several times. */
export async function tap(page, name, times) {
  for (let done = 0; done < times; done += 1) await press(page, name);
}

/** Follows a link by its exact name. */
export async function follow(page, name) {
  await page.waitForTimeout(400);
  await page.getByRole('link', { name, exact: true }).first().click();
}

/** Picks the first answer that holds these words. */
export function pick(page, name) {
  return page.locator('.choice', { hasText: name }).first().click();
}

/** Picks the answer of exactly this name, under this question where it is given. */
export function choose(page, name, question) {
  const within = question ? page.getByRole('group', { name: question, exact: true }) : page;
  return within.getByRole('radio', { name, exact: true }).check({ force: true });
}

/** Waits until the screen of this title is there. */
export function title(page, words) {
  return page.getByRole('heading', { level: 1, name: words }).waitFor();
}

/** Goes to a room by the bar at the bottom. */
export function room(page, name) {
  return page.getByRole('navigation').getByRole('link', { name }).click();
}

/** Goes to an address within the program, and waits until the screen of it has taken the place of the one before. */
export function go(page, hash) {
  return page.evaluate((to) => new Promise((done) => {
    const drawn = () => requestAnimationFrame(() => requestAnimationFrame(() => done()));
    if (location.hash === to) drawn();
    // The program listened first.
    else addEventListener('hashchange', drawn, { once: true });
    location.hash = to;
  }), hash);
}

/** How long something may take to be shown. */
const PATIENCE_MS = Number(process.env.VELAMEN_WAIT_MS ?? 120_000);

/**
 * Looks until what is asserted holds, and gives what `check` gave. What is recorded is shown a moment after the tap, so a
 * single look right after it may come too soon: everything read from a page goes through here, unless something that
 * comes later on the same screen has been waited for.
 */
export async function eventually(page, check) {
  const till = Date.now() + PATIENCE_MS;
  for (let wait = 20; ; wait = Math.min(wait * 2, 500)) {
    try {
      return await check();
    } catch (error) {
      if (Date.now() > till) {
        error.message += `\nNot so after ${PATIENCE_MS / 1000} s. On the screen: ${await screen(page)}`;
        throw error;
      }
    }
    await pause(wait);
  }
}

/** Everything of a list that is drawn in parts: the key at its end is pressed until there is no more. */
export async function toTheEnd(page, more) {
  const key = page.getByRole('button', { name: more, exact: true });
  await eventually(page, async () => {
    if (await key.isVisible()) await key.click({ timeout: 1_000 }).catch(() => {});
    assert.equal(await key.count(), 0);
  });
}

/** Answers the one question of the first start. */
export async function startBook(page, nursery = 'Under the Ash') {
  await page.getByLabel('Name of the nursery').fill(nursery);
  await press(page, 'Start my book');
  await title(page, 'Round');
}

/** A stop on the walk, from anywhere. */
export async function addPlace(page, name) {
  await go(page, '#/shed/places');
  await title(page, 'Places');
  await page.getByLabel('Name of the place').fill(name);
  await press(page, 'Add this place');
  await page.getByRole('link', { name, exact: true }).waitFor();
}
