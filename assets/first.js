// What stands on the glass before the program does: in the language and the colours of this phone, with the rooms where
// the program was here before. The program's first screen takes its place. Inlined into index.html, so that the first
// paint waits for no further file.
{
  const root = document.documentElement;
  const first = document.getElementById('first');
  const likes = () => {
    try {
      return JSON.parse(localStorage.getItem('velamen.preferences')) ?? {};
    } catch {
      return {};
    }
  };
  const { language, theme, bench_size: bench } = likes();
  const has = (name) => first.querySelector(`[lang="${name}"]`) !== null;
  const spoken = [language, ...navigator.languages.map((one) => one.slice(0, 2))];
  root.lang = spoken.find((name) => /^[a-z]{2}$/.test(name) && has(name)) ?? 'en';
  if (theme === 'light' || theme === 'dark') root.dataset.theme = theme;
  if (bench) root.dataset.size = 'bench';
  if (navigator.serviceWorker?.controller) first.classList.add('first-known');
  first.hidden = false;

  /** A program that did not come says so, as long as nothing else stands here. */
  const failed = () => first.classList.add('first-failed');
  addEventListener('error', failed);
  addEventListener('unhandledrejection', failed);
}
