import type { Component } from 'svelte';
import { describe, expect, expectTypeOf, it, vi } from 'vitest';

import { match, route, type Parameters } from './router.svelte';

const load = () => Promise.reject(new Error('no screen is shown here'));
const routes = ['/plantings', '/planting/new', '/planting/:planting', '/planting/:planting/edit'].map((pattern) =>
  route(pattern, load),
);

describe('match', () => {
  it('takes the first pattern that fits, so that a word wins over a parameter before it', () => {
    expect(match(routes, '/planting/new')?.route.pattern).toBe('/planting/new');
    expect(match(routes, '/planting/7f')?.route.pattern).toBe('/planting/:planting');
    expect(match(routes, '/planting/7f/edit')?.route.pattern).toBe('/planting/:planting/edit');
  });

  it('gives the screen its parameters as they were before they were put into an address', async () => {
    const shown = vi.fn<Component<{ planting: string }>>(() => ({}));
    const planting = route('/planting/:planting', () => Promise.resolve({ default: shown }));
    const found = planting.match(`/planting/${encodeURIComponent('North 40/a')}`);
    expect(found?.screen()).toBeNull();
    await planting.load();
    found?.screen()?.({} as never, {});
    expect(shown.mock.calls[0]?.[1]).toEqual({ planting: 'North 40/a' });
  });

  it('finds nothing for an unknown address', () => {
    expect(match(routes, '/nowhere')).toBeNull();
    expect(match(routes, '/planting/7f/edit/more')).toBeNull();
  });
});

describe('a pattern', () => {
  it('says in its type which parameters its screen is given', () => {
    expectTypeOf<Parameters<'/photo/:planting/:photo'>>().toExtend<{ planting: string; photo: string }>();
    expectTypeOf<Parameters<'/planting/new'>>().not.toExtend<{ planting: string }>();
    type Screen<P extends Record<string, unknown>> = () => Promise<{ default: Component<P> }>;
    const planting: Screen<{ planting: string }> = load;
    const either: Screen<{ planting?: string }> = load;
    route('/planting/:planting', planting);
    route('/harvest/terms', either);
    // @ts-expect-error The address has no planting.
    route('/plantings', planting);
    // @ts-expect-error A walk is no planting.
    route('/walk/:walk', planting);
    // @ts-expect-error Any text may stand in an address.
    route('/key/:reading', load as Screen<{ reading?: 'milk' }>);
  });
});
