// The app starts from the release build on a plain static host, and its policy holds.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { eventually } from './hand.mjs';
import { axe, home, homeUnderFolder, kill, phoneTest, picture, reopen, serve } from './harness.mjs';

/** The first start, whole: while the book is being opened another screen has the same heading. */
const heading = (page) => page.getByLabel('Name of the nursery').waitFor();

phoneTest('the app starts without a complaint', {}, async ({ page, complaints }) => {
  await heading(page);
  await picture(page, 'start');
  assert.deepEqual(complaints, []);
});

phoneTest('it starts under a folder of the host', { url: homeUnderFolder ?? null }, async ({ page, complaints }) => {
  assert.ok(homeUnderFolder, 'VELAMEN_SUB_URL is not set: run this through cargo xtask test');
  await heading(page);
  assert.equal(page.url().startsWith(homeUnderFolder), true);
  assert.deepEqual(complaints, []);
});

phoneTest('its policy is strict and stops a script put into the page', {}, async ({ page, complaints }) => {
  await heading(page);
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  assert.match(policy, /^default-src 'none'; script-src 'self'(?: 'sha256-[^']+')+ 'wasm-unsafe-eval';/);
  assert.doesNotMatch(policy, /unsafe-inline|'unsafe-eval'|\*/);
  const ran = await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.intruder = true';
    document.head.append(script);
    return window.intruder === true;
  });
  assert.equal(ran, false);
  const reached = await page.evaluate(() => fetch('http://localhost:9/').then(() => 'sent', (error) => error.name));
  assert.equal(reached, 'TypeError');
  for (const words of ['inline script', 'connect-src']) {
    await eventually(page, () => assert.ok(complaints.some((line) => line.includes(words)), complaints.join('\n')));
  }
});

phoneTest('nothing comes from another host', { url: null }, async ({ page }) => {
  const asked = [];
  page.on('request', (request) => asked.push(new URL(request.url()).origin));
  await page.goto(home);
  await heading(page);
  await eventually(page, () => assert.ok(asked.length >= 4, `only ${asked.length} requests seen`));
  assert.deepEqual([...new Set(asked)], [new URL(home).origin]);
});

/** Holds the program back; what is given lets it come, or never come. */
async function holdBack(page) {
  let decide;
  const decided = new Promise((resolve) => { decide = resolve; });
  await page.route('**/*_bg*.wasm', async (route) => {
    const comes = await decided;
    await (comes ? route.continue() : route.abort());
  });
  return decide;
}

const FIRST = [
  ['as the phone is', { locale: 'en-GB', colorScheme: 'light' }, "The nursery's book", 'Opening the book', 'rgb(251, 250, 244)'],
  ['in another language and in the dark', { locale: 'es-ES', colorScheme: 'dark' }, 'El libro del vivero', 'Abriendo el libro', 'rgb(17, 20, 15)'],
  [
    'as it was chosen',
    { locale: 'es-ES', colorScheme: 'light', init: () => localStorage.setItem('velamen.preferences', '{"theme":"dark","language":"en"}') },
    "The nursery's book",
    'Opening the book',
    'rgb(17, 20, 15)',
  ],
];
for (const [name, options, title, opening, ground] of FIRST) {
  phoneTest(`the page says what it is before the program comes, ${name}`, { url: null, ...options }, async ({ page, complaints }) => {
    await page.addInitScript(() => {
      globalThis.shifted = 0;
      new PerformanceObserver((list) => list.getEntries().forEach(({ value }) => { globalThis.shifted += value; }))
        .observe({ type: 'layout-shift', buffered: true });
    });
    const decide = await holdBack(page);
    await page.goto(home, { waitUntil: 'commit' });
    await page.getByText(opening, { exact: true }).waitFor();
    assert.equal(await page.getByText(title, { exact: true }).isVisible(), true);
    assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), ground);
    // Nothing here can be taken for the program's own keys, which would do nothing yet.
    assert.equal(await page.locator('#first').getByRole('link').count(), 0);
    decide(true);
    await page.locator('input').first().waitFor();
    assert.equal(await page.locator('#first').count(), 0);
    assert.equal(await page.evaluate(() => globalThis.shifted), 0);
    assert.deepEqual(complaints, []);
  });
}

phoneTest('a program that does not come is told on the page', { url: null }, async ({ page }) => {
  const decide = await holdBack(page);
  await page.goto(home, { waitUntil: 'commit' });
  await page.getByText('Opening the book', { exact: true }).waitFor();
  decide(false);
  await page.getByRole('alert').getByText('could not be fetched').waitFor();
  assert.deepEqual(await axe(page), []);
});

for (const colorScheme of ['light', 'dark']) {
  phoneTest(`axe finds nothing on the first screen in ${colorScheme}`, { colorScheme }, async ({ page }) => {
    await heading(page);
    assert.deepEqual(await axe(page), []);
    // The same look must see an unnamed button, or it sees nothing.
    await page.evaluate(() => document.body.append(document.createElement('button')));
    assert.deepEqual((await axe(page)).map(({ id }) => id), ['button-name']);
  });
}

phoneTest('the app starts again after the browser was killed', {}, async (phone) => {
  await heading(phone.page);
  await phone.page.evaluate(() => localStorage.setItem('probe', 'kept'));
  const ended = await kill(phone);
  assert.ok(ended.length > 1, 'only one process was found');
  const again = await reopen(phone);
  await heading(again.page);
  assert.deepEqual(again.complaints, []);
});

test('a server of its own can be stopped and started on the same port', async () => {
  const first = await serve();
  assert.equal((await fetch(first.url)).status, 200);
  await first.stop();
  await assert.rejects(fetch(first.url));
  const second = await serve({ port: Number(new URL(first.url).port), under: 'book' });
  assert.equal((await fetch(second.url)).headers.get('content-type'), 'text/html; charset=utf-8');
  await second.stop();
});
