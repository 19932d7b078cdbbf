// Every screen on the phone: light, dark, and in the colours of a person who chose their own. One browser, one book.
import assert from 'node:assert/strict';
import { phoneTest } from './harness.mjs';
import { screens, walk } from './walk.mjs';

const looks = [
  { name: 'light', width: 390, height: 844, axe: true },
  // What was whole in light is whole here; contrast is another.
  { name: 'dark', width: 390, height: 844, dark: true, axe: ['color-contrast'] },
  // The system's own colours have no contrast of ours to check.
  { name: 'forced', width: 390, height: 844, forced: true },
];

phoneTest('every screen is whole and clear in light, in dark and in forced colours', {}, async ({ page, complaints }, t) => {
  const all = await screens(page);
  for (const look of looks) await t.test(look.name, () => walk(page, all, look));
  assert.deepEqual(complaints, []);
});
