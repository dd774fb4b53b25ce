import { readFileSync } from 'node:fs';

import { describe, expect, it } from 'vitest';

import { DESK_ROUTES } from '../vite.config';

describe('npm run dev', () => {
  it('passes every address of the desk on to it', () => {
    const server = readFileSync(new URL('../../src-tauri/cli/src/desk/server.rs', import.meta.url), 'utf8');
    const addresses = [...server.matchAll(/\.route\(\s*"([^"]+)"/g)].map(([, address]) => address ?? '');
    expect(addresses).toContain('/call');
    expect(addresses.filter((address) => !DESK_ROUTES.some((route) => address.startsWith(route)))).toEqual([]);
  });
});
