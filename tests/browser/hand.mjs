// A hand on the phone: the few things every test does with a page.

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

/** Goes to an address within the program. */
export function go(page, hash) {
  return page.evaluate((to) => { location.hash = to; }, hash);
}
