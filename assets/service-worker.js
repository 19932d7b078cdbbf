// Keeps the program on this phone: everything it is made of, fetched whole, checked byte for byte, and served without a
// network. The book is not its business; that lies in the phone's own storage.
//
// What holds: a build is in its cache whole and right, or not at all. A new build waits until the page says that the
// person agreed. Nothing outside this folder of the host is touched, neither addresses nor caches.
//
// A language other than the first is kept once the page asks for it, and comes along with every later build.
//
// What another app passes to this one is put aside until the page looks at it.
//
// The three values below are written by `cargo xtask build`, in dist/ alone.
'use strict';

const POLICY = "@POLICY@";
// Path from this folder, SHA-256 in hex, media type, and the language it belongs to alone, if it does.
const FILES = [
@FILES@
];
const BUILD = "@BUILD@";

const home = self.registration.scope;
// An address holds no space, so the caches of a folder and of one inside it never begin alike.
const ours = `velamen ${home} `;
const name = ours + BUILD;
const addressOf = (path) => new URL(path, home).href;
const kept = new Set(FILES.map(([path]) => addressOf(path)));

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(activate()));
self.addEventListener('message', (event) => {
  if (event.data === 'put in') self.skipWaiting();
  const language = event.data?.keep;
  if (language) {
    const said = keepLanguage(language).then(() => true, () => false);
    event.waitUntil(said.then((kept) => event.ports[0]?.postMessage(kept)));
  }
});
self.addEventListener('fetch', (event) => {
  if (event.request.method === 'POST' && event.request.url === addressOf('share')) {
    event.respondWith(putAside(event.request));
    return;
  }
  if (event.request.method !== 'GET') return;
  const address = new URL(event.request.url);
  address.search = '';
  address.hash = '';
  const plain = address.href === addressOf('index.html') ? home : address.href;
  if (kept.has(plain)) event.respondWith(answer(plain, event.request));
});

/** Files from a share sheet wait in a cache of their own; the page that takes files in finds them there. */
async function putAside(request) {
  try {
    const files = (await request.formData()).getAll('files');
    const cache = await caches.open(`velamen-passed-on ${home}`);
    await Promise.all(files.map((file, at) => cache.put(addressOf(`share/${at}/${encodeURIComponent(file.name)}`), new Response(file))));
  } catch {
    // The page says nothing of files, and they can be shared again.
  }
  return Response.redirect(addressOf('#/book/files'), 303);
}

async function answer(address, request) {
  const found = await caches.match(address, { cacheName: name });
  return found ?? fetch(request);
}

async function install() {
  const earlier = await earlierCaches();
  const languages = await languagesIn(earlier);
  const files = await inHand(FILES.filter(([, , , language]) => !language || languages.includes(language)), earlier);
  try {
    await putAway(files);
    await Promise.all(languages.map(mark));
  } catch (error) {
    await caches.delete(name);
    throw error;
  }
}

/** A language has its mark in the cache once all its files are there. */
const markOf = (language) => addressOf(`language/${language}`);

async function mark(language) {
  await (await caches.open(name)).put(markOf(language), new Response(''));
}

/** The languages an earlier build kept and this one has. */
async function languagesIn(earlier) {
  const all = [...new Set(FILES.map(([, , , language]) => language).filter(Boolean))];
  const found = await Promise.all(all.map(async (language) => {
    const marks = await Promise.all(earlier.map((cache) => cache.match(markOf(language))));
    return marks.some(Boolean) ? [language] : [];
  }));
  return found.flat();
}

/** Once kept it costs a look at its mark. */
async function keepLanguage(language) {
  const rows = FILES.filter(([, , , of]) => of === language);
  if (rows.length === 0) throw new Error(`This build has no ${language}.`);
  if (await caches.match(markOf(language), { cacheName: name })) return;
  await putAway(await inHand(rows, []));
  await mark(language);
}

/** All files are in hand and right before the first is put away. */
async function inHand(rows, earlier) {
  return Promise.all(rows.map(async ([path, hash, type]) => {
    const address = addressOf(path);
    const bytes = (await copied(earlier, address, hash)) ?? (await fetched(address, hash));
    return { address, bytes, type };
  }));
}

async function putAway(files) {
  await leaveRoomForTheBook(files.reduce((sum, { bytes }) => sum + bytes.byteLength, 0));
  const cache = await caches.open(name);
  await Promise.all(files.map(({ address, bytes, type }) => cache.put(address, answerOf(bytes, type))));
}

/** The type comes from the build, not from the host, and the policy also covers what its meta element cannot. */
function answerOf(bytes, type) {
  return new Response(bytes, {
    headers: {
      'Content-Type': type,
      'Content-Length': String(bytes.byteLength),
      'Content-Security-Policy': POLICY,
      'X-Content-Type-Options': 'nosniff',
      'Referrer-Policy': 'no-referrer',
    },
  });
}

async function earlierCaches() {
  const names = (await caches.keys()).filter((other) => other.startsWith(ours));
  return Promise.all(names.map((other) => caches.open(other)));
}

/** The same bytes out of an earlier build, if one has them: they need not come over the network again. */
async function copied(earlier, address, hash) {
  for (const cache of earlier) {
    const found = await cache.match(address);
    const bytes = found && (await found.arrayBuffer());
    if (bytes && (await sha256(bytes)) === hash) return bytes;
  }
  return undefined;
}

async function fetched(address, hash) {
  const response = await fetch(address, { cache: 'no-store' });
  if (!response.ok) throw new Error(`${address} answered ${response.status}.`);
  const bytes = await response.arrayBuffer();
  if ((await sha256(bytes)) !== hash) throw new Error(`${address} is not what this build was made of.`);
  return bytes;
}

async function sha256(bytes) {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** On a phone that is nearly full, the room left belongs to the book: twice what the program takes must be free. */
async function leaveRoomForTheBook(bytes) {
  const { quota, usage } = await navigator.storage.estimate();
  if (quota - usage < 2 * bytes) throw new Error('This phone has no room to keep the program.');
}

/** Earlier builds of this folder go; not while a later one is being put together, which would lose its files. */
async function activate() {
  const { installing, waiting } = self.registration;
  if (!installing && !waiting) {
    const names = await caches.keys();
    const earlier = names.filter((other) => other.startsWith(ours) && other !== name);
    await Promise.all(earlier.map((other) => caches.delete(other)));
  }
  await self.clients.claim();
}
