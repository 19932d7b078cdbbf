// The program stays on the phone: it opens with the server gone, from any folder of a host; a new version waits to be
// agreed to; a damaged one never comes in. Every test serves a build of its own, so that it can stop it and change it.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { appendFile, cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { promisify } from 'node:util';
import { fileURLToPath } from 'node:url';
import { eventually, go as goTo, press, room, title } from './hand.mjs';
import { axe, phoneTest, picture, serve } from './harness.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));
const offer = (page) => page.getByText('A new version is ready.');

/** Serves a copy of the build for as long as the test runs, under `under` if given. */
async function aHost(t, under) {
  const dist = await mkdtemp(path.join(tmpdir(), 'velamen-dist-'));
  await cp(path.join(root, 'dist'), dist, { recursive: true });
  const host = { dist, ...(await serve({ dist, under })) };
  t.after(async () => {
    await host.stop();
    await rm(dist, { recursive: true, force: true });
  });
  return host;
}

/** Lists the files of a build anew, as after a build. */
async function relist(dist) {
  const own = process.env.VELAMEN_XTASK;
  const [program, words] = own ? [own, []] : ['cargo', ['xtask']];
  await promisify(execFile)(program, [...words, 'relist', dist], { cwd: root });
}

/** Another version: the page's description says which, and the list is right. */
async function release(dist, version) {
  const page = path.join(dist, 'index.html');
  const text = await readFile(page, 'utf8');
  const other = text.replace(/(<meta name="description" content=")[^"]*/, `$1${version}`);
  await writeFile(page, other.replace(/(<meta name="news-en" content=")[^"]*/, `$1All that came with the ${version}.`));
  await relist(dist);
}

const versionOf = (page) => page.locator('meta[name="description"]').getAttribute('content');
const cacheNames = (page) => page.evaluate(() => caches.keys());

async function startBook(page, url) {
  await page.goto(url);
  await page.getByLabel('Name of the nursery').fill('Under the Ash');
  await press(page, 'Start my book');
  await title(page, 'Round');
}

async function addLot(page) {
  await goTo(page, '#/stock/new');
  await page.getByLabel('Name of the plant').fill('Cymbidium lowianum');
  await page.getByLabel('Name of the new place').fill('Cool house');
  await press(page, 'Add this lot');
  await page.getByRole('heading', { name: 'In the book' }).waitFor();
}

/** Until the worker of this folder, and not one of a folder around it, holds everything and answers for this page. */
const controlled = (page) => page.waitForFunction(() => {
  const { controller } = navigator.serviceWorker;
  return controller?.scriptURL === new URL('service-worker.js', location.href).href && controller.state === 'activated';
});

/** Looks for a new version and waits for what comes of it: 'installed', or 'redundant' when it was not taken. */
const lookForVersion = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  const arrived = new Promise((done) => registration.addEventListener('updatefound', () => done(registration.installing), { once: true }));
  await registration.update();
  const worker = await arrived;
  while (worker.state === 'installing') await new Promise((done) => worker.addEventListener('statechange', done, { once: true }));
  return worker.state;
});

/** Looks until a new version lies ready. After a reload the browser looks by itself too, and may have met a build half put there. */
const versionReady = (page) => eventually(page, () => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.getRegistration();
  await registration.update().catch(() => {});
  const worker = registration.installing;
  while (worker?.state === 'installing') await new Promise((done) => worker.addEventListener('statechange', done, { once: true }));
  if (!registration.waiting) throw new Error('No new version lies ready.');
}));

/** Counts how often a window has loaded the program; the blank page it begins as keeps nothing. */
function countStarts() {
  if (location.protocol === 'http:') sessionStorage.setItem('starts', String(Number(sessionStorage.getItem('starts')) + 1));
}
const starts = (page) => page.evaluate(() => sessionStorage.getItem('starts'));

for (const under of [undefined, 'some/folder']) {
  const where = under ? 'under a folder of the host' : 'at the top of the host';
  phoneTest(`the book opens with the server gone, ${where}`, { url: null }, async ({ page, context, complaints }, t) => {
    const host = await aHost(t, under);
    await startBook(page, host.url);
    await addLot(page);
    await controlled(page);
    await goTo(page, '#/shed/phone');
    await page.getByText('Kept on this phone: it opens without a network.').waitFor();
    await picture(page, 'kept');
    assert.deepEqual(await axe(page), []);
    assert.deepEqual(complaints, []);
    const scope = await page.evaluate(async () => (await navigator.serviceWorker.getRegistration()).scope);
    assert.equal(scope, host.url);

    await host.stop();
    await assert.rejects(fetch(host.url));
    await page.reload();
    await title(page, 'This phone');
    const linked = await context.newPage();
    await linked.goto(`${host.url}?from=label#/stock`);
    await linked.getByText('lowianum').first().waitFor();
    const named = await context.newPage();
    await named.goto(`${host.url}index.html#/book`);
    await title(named, 'Book');
    const away = await page.evaluate(() => fetch('./lot/7').then(() => 'answered', () => 'not there'));
    assert.equal(away, 'not there', 'nothing is made up for what is not of the program');
    assert.deepEqual(complaints.filter((line) => !line.includes('lot/7') && !line.includes('ERR_CONNECTION_REFUSED')), []);
  });
}

phoneTest('two folders of one host keep a program each', { url: null, init: countStarts }, async ({ page, context }, t) => {
  const host = await aHost(t, 'one');
  const inner = path.join(host.dist, 'two');
  await cp(path.join(root, 'dist'), inner, { recursive: true });
  await relist(inner);
  await startBook(page, host.url);
  await controlled(page);
  const other = await context.newPage();
  await other.goto(`${host.url}two/`);
  await title(other, 'Round');
  await controlled(other);
  assert.equal((await cacheNames(page)).length, 2);
  assert.equal(await starts(other), '1', 'the worker of the folder around it was no version of this program');
  await release(inner, 'second');
  assert.equal(await lookForVersion(other), 'installed');
  await page.close();
  await press(other, 'Put it in');
  await other.waitForFunction(() => document.querySelector('meta[name="description"]').content === 'second');
  await eventually(other, async () => {
    const names = await cacheNames(other);
    assert.deepEqual(names.map((name) => name.split(' ')[1]).sort(), [host.url, `${host.url}two/`], names.join('\n'));
  });
});

phoneTest('a new version waits for the person, and comes in at a tap in every window', { url: null, init: countStarts }, async ({ page, context, complaints }, t) => {
  const host = await aHost(t);
  await startBook(page, host.url);
  await addLot(page);
  await controlled(page);
  assert.equal(await starts(page), '1', 'coming to be kept loads nothing again');
  const before = await cacheNames(page);
  assert.equal(before.length, 1);
  const first = await versionOf(page);

  await goTo(page, '#/repot/new');
  await press(page, 'Not in the book');
  await press(page, 'Open it');
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  await page.getByRole('button', { name: 'One more: Starters' }).click();
  await release(host.dist, 'second');
  assert.equal(await lookForVersion(page), 'installed');
  await page.waitForTimeout(1500);
  assert.equal(await offer(page).count(), 0, 'nothing is offered at the bench');
  await page.reload();
  await page.getByRole('group', { name: 'Starters', exact: true }).waitFor();
  assert.equal(await versionOf(page), first, 'it does not come in by itself');
  assert.equal(await offer(page).count(), 0);
  await room(page, 'Treat');
  await title(page, 'Treat');
  assert.equal(await offer(page).count(), 0, 'Treat has its work on its first screen');

  for (const name of ['Stock', 'Book', 'Repot', 'Round']) {
    await room(page, name);
    await title(page, name);
    await offer(page).waitFor();
  }
  await page.getByText('A new version is ready. All that came with the second. Nothing in hand is lost.').waitFor();
  await picture(page, 'new-version');
  assert.deepEqual(await axe(page), []);
  const follower = await context.newPage();
  await follower.goto(`${host.url}#/stock`);
  await title(follower, 'Stock');
  await follower.getByText('This one only shows').waitFor();
  assert.equal(await offer(follower).count(), 0, 'only the window that writes offers it');
  assert.equal(await starts(page), '2');

  await press(page, 'Put it in');
  for (const window of [page, follower]) {
    await window.waitForFunction(() => document.querySelector('meta[name="description"]').content === 'second');
    await window.locator('h1').first().waitFor();
  }
  await title(page, 'Round');
  await page.waitForTimeout(1000);
  assert.deepEqual([await starts(page), await starts(follower)], ['3', '2'], 'each window loads again once');
  assert.equal(await offer(page).count(), 0);
  await eventually(page, async () => {
    const after = await cacheNames(page);
    assert.equal(after.length, 1, 'the version before is gone');
    assert.notDeepEqual(after, before);
  });
  await follower.close();
  await room(page, 'Stock');
  await page.getByText('lowianum').first().waitFor();
  await room(page, 'Repot');
  await page.getByRole('link', { name: 'Go on', exact: true }).click();
  const starters = page.getByRole('group', { name: 'Starters', exact: true });
  await eventually(page, async () => assert.equal(await starters.locator('output').innerText(), '1', 'the tap at the bench is still there'));
  assert.deepEqual(complaints, []);
});

phoneTest('a new version is looked for when the program is seen again, once an hour at most', { url: null, init: () => {
  const update = ServiceWorkerRegistration.prototype.update;
  window.looks = 0;
  ServiceWorkerRegistration.prototype.update = function look() {
    window.looks += 1;
    return update.call(this);
  };
} }, async ({ page }, t) => {
  const host = await aHost(t);
  await startBook(page, host.url);
  await controlled(page);
  const seenAfter = (minutes) => page.evaluate((later) => {
    const now = Date.now;
    const at = now() + later * 60_000;
    Date.now = () => at;
    const RealDate = window.Date;
    window.Date = class extends RealDate {
      constructor(...given) {
        if (given.length) super(...given);
        else super(at);
      }
    };
    document.dispatchEvent(new Event('visibilitychange'));
    return window.looks;
  }, minutes);
  assert.equal(await seenAfter(50), 0);
  assert.equal(await seenAfter(15), 1);
  assert.equal(await seenAfter(30), 1);
  assert.equal(await seenAfter(31), 2);
});

phoneTest('a damaged file keeps the new version out, and the old one stays', { url: null }, async ({ page }, t) => {
  const host = await aHost(t);
  await startBook(page, host.url);
  await controlled(page);
  const before = await cacheNames(page);
  const first = await versionOf(page);
  const icon = path.join(host.dist, 'icon-192.png');
  await appendFile(icon, 'new');
  await release(host.dist, 'second');
  await appendFile(icon, 'damaged');
  assert.equal(await lookForVersion(page), 'redundant');
  assert.deepEqual(await cacheNames(page), before, 'nothing half is left behind');
  await page.reload();
  await title(page, 'Round');
  assert.equal(await versionOf(page), first);
  assert.equal(await offer(page).count(), 0);
  // Whole again, the same version comes.
  await release(host.dist, 'second');
  await versionReady(page);
  await offer(page).waitFor();
});

phoneTest('a first version that does not arrive whole is not kept, and the phone says so', { url: null }, async ({ page, complaints }, t) => {
  const host = await aHost(t);
  await appendFile(path.join(host.dist, 'icon-512.png'), 'damaged');
  await startBook(page, host.url);
  await goTo(page, '#/shed/phone');
  await page.getByText('Not kept: not everything arrived whole').waitFor();
  assert.deepEqual(await cacheNames(page), []);
  assert.deepEqual(complaints, []);
});

phoneTest('a browser without workers says that nothing is kept, and goes on', { url: null, init: () => {
  delete Navigator.prototype.serviceWorker;
} }, async ({ page, complaints }, t) => {
  const host = await aHost(t);
  await startBook(page, host.url);
  await goTo(page, '#/shed/phone');
  await page.getByText('Not kept: this browser does not allow it here').waitFor();
  assert.deepEqual(complaints, []);
});

phoneTest('the policy holds with the server gone, also where a meta element has no say', { url: null }, async ({ page, complaints }, t) => {
  const host = await aHost(t);
  const headers = await readFile(path.join(host.dist, '_headers'), 'utf8');
  const written = headers.match(/Content-Security-Policy: (.*)/)[1];
  await startBook(page, host.url);
  await controlled(page);
  await host.stop();
  const answer = await page.reload();
  await title(page, 'Round');
  assert.equal(answer.fromServiceWorker(), true);
  assert.equal(answer.headers()['content-security-policy'], written);
  assert.equal(answer.headers()['x-content-type-options'], 'nosniff');
  const meta = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  assert.equal(written, `${meta}; frame-ancestors 'none'`);
  assert.match(meta, /worker-src 'self'; manifest-src 'self'/);
  const ran = await page.evaluate(() => {
    const script = document.createElement('script');
    script.textContent = 'window.intruder = true';
    document.head.append(script);
    return window.intruder === true;
  });
  assert.equal(ran, false);
  await eventually(page, () => assert.ok(complaints.some((line) => line.includes('inline script')), complaints.join('\n')));
});

phoneTest('the manifest says all a phone needs to install it, under any folder', { url: null }, async ({ page, context }, t) => {
  const host = await aHost(t, 'some/folder');
  await page.goto(host.url);
  await page.locator('h1').first().waitFor();
  const session = await context.newCDPSession(page);
  const { url, errors, data } = await session.send('Page.getAppManifest');
  assert.equal(url, `${host.url}manifest.webmanifest`);
  assert.deepEqual(errors, []);
  assert.deepEqual((await session.send('Page.getInstallabilityErrors')).installabilityErrors, []);
  assert.equal((await fetch(url)).headers.get('content-type'), 'application/manifest+json');
  const manifest = JSON.parse(data);
  for (const name of ['name', 'short_name', 'description', 'background_color', 'theme_color']) assert.ok(manifest[name], name);
  assert.equal(manifest.display, 'standalone');
  assert.ok(manifest.short_name.length <= 12);
  const full = (relative) => new URL(relative, url).href;
  assert.deepEqual([manifest.start_url, manifest.scope].map(full), [host.url, host.url]);
  const rooms = manifest.shortcuts.map((shortcut) => full(shortcut.url).replace(host.url, ''));
  assert.deepEqual(rooms, ['#/', '#/repot', '#/treat', '#/stock', '#/book']);
  const uses = manifest.icons.map((icon) => `${icon.purpose} ${icon.sizes}`);
  assert.deepEqual(uses, ['any 192x192', 'any 512x512', 'maskable 512x512']);
  const touch = await page.locator('link[rel="apple-touch-icon"]').evaluate((link) => link.href);
  const icons = [...manifest.icons.map((icon) => [full(icon.src), icon.sizes]), [touch, '180x180']];
  for (const [address, sizes] of icons) {
    const bytes = Buffer.from(await (await fetch(address)).arrayBuffer());
    assert.equal(bytes.toString('latin1', 1, 4), 'PNG', address);
    assert.equal(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`, sizes, address);
  }
});
