// Every screen in the other windows: the smallest phone with doubled text, a phone on its side, and a laptop; and in the
// other language, whose words are longer, on the narrowest phone.
import assert from 'node:assert/strict';
import { phoneTest } from './harness.mjs';
import { screens, walk } from './walk.mjs';

const looks = [
  { name: 'doubled', width: 320, height: 568, text: '200%' },
  { name: 'side', width: 844, height: 390, dark: true },
  // The laptop has other parts beside each other, so axe looks again.
  { name: 'laptop', width: 1280, height: 800, axe: true },
  { name: 'spanish', width: 320, height: 568, language: 'es' },
];

phoneTest('every screen is whole on the smallest phone with doubled text, on its side, on a laptop and in Spanish', {}, async ({ page, complaints }, t) => {
  const all = await screens(page);
  for (const look of looks) await t.test(look.name, () => walk(page, all, look));
  assert.deepEqual(complaints, []);
});
