// The tabs at the foot of the list screens, in order.

import type { Tab } from './router.svelte';

export const tabs: readonly { tab: Tab; path: string; drawing: string }[] = [
  {
    tab: 'plantings',
    path: '/plantings',
    drawing: 'M4 20h16M8 20V9M16 20V9M8 9c-3-3-2-6 0-7 2 1 3 4 0 7zM16 9c-3-3-2-6 0-7 2 1 3 4 0 7z',
  },
  { tab: 'more', path: '/more', drawing: 'M4 7h16M4 12h16M4 17h16' },
];
