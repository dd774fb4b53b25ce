// The tabs at the foot of the list screens, in order.

import type { Tab } from './router.svelte';

export const tabs: readonly { tab: Tab; path: string; drawing: string }[] = [
  {
    tab: 'plantings',
    path: '/plantings',
    drawing: 'M4 20h16M8 20V9M16 20V9M8 9c-3-3-2-6 0-7 2 1 3 4 0 7zM16 9c-3-3-2-6 0-7 2 1 3 4 0 7z',
  },
  { tab: 'fortnight', path: '/fortnight', drawing: 'M4 6h16v14H4zM4 11h16M9 3v5M15 3v5M8 15h3M13 15h3' },
  { tab: 'more', path: '/more', drawing: 'M4 7h16M4 12h16M4 17h16' },
];
