// Theme, language and hand as attributes of the document, where the style
// sheets and the screen reader find them. Kept beside the page too, so that
// the first picture after a start already has the right ones.

import type { Settings, Theme } from '../contract';

const KEPT = 'headwalk.appearance';
const darkWanted = matchMedia('(prefers-color-scheme: dark)');

interface Appearance {
  theme: Theme;
  language: string;
  left_hand: boolean;
}

let shown: Appearance = {
  theme: 'system',
  language: navigator.language.startsWith('es') ? 'es' : 'en',
  left_hand: false,
};

/** As it was when the app was last open; the system's wishes where it never was. */
export function lastAppearance(): Appearance {
  try {
    const kept = JSON.parse(localStorage.getItem(KEPT) ?? 'null') as Partial<Appearance> | null;
    return { ...shown, ...kept };
  } catch {
    return shown;
  }
}

/** Shows the page as the settings say. */
export function applyAppearance(settings: Pick<Settings, 'theme' | 'language' | 'left_hand'>): void {
  shown = { theme: settings.theme, language: settings.language, left_hand: settings.left_hand };
  localStorage.setItem(KEPT, JSON.stringify(shown));
  paint();
}

function paint(): void {
  const root = document.documentElement;
  const dark = shown.theme === 'dark' || (shown.theme === 'system' && darkWanted.matches);
  root.dataset['theme'] = dark ? 'dark' : 'light';
  root.dataset['hand'] = shown.left_hand ? 'left' : 'right';
  root.lang = shown.language;
}

darkWanted.addEventListener('change', paint);
