import { describe, expect, it } from 'vitest';

import { match, type Route } from './router.svelte';

const screen = (() => undefined) as unknown as Route['screen'];
const routes: Route[] = [
  { pattern: '/plantings', screen },
  { pattern: '/planting/new', screen },
  { pattern: '/planting/:planting', screen },
  { pattern: '/planting/:planting/edit', screen },
];

describe('match', () => {
  it('takes the first pattern that fits, so that a word wins over a parameter before it', () => {
    expect(match(routes, '/planting/new')?.route.pattern).toBe('/planting/new');
    expect(match(routes, '/planting/7f')?.parameters).toEqual({ planting: '7f' });
    expect(match(routes, '/planting/7f/edit')?.route.pattern).toBe('/planting/:planting/edit');
  });

  it('reads parameters back as they were before they were put into an address', () => {
    expect(match(routes, `/planting/${encodeURIComponent('North 40/a')}`)?.parameters).toEqual({
      planting: 'North 40/a',
    });
  });

  it('finds nothing for an unknown address', () => {
    expect(match(routes, '/nowhere')).toBeNull();
    expect(match(routes, '/planting/7f/edit/more')).toBeNull();
  });
});
