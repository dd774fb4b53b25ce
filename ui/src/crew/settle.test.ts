import { describe, expect, it, vi } from 'vitest';

// The messages follow the settings, which follow the system's theme.
vi.hoisted(() => {
  const none = { matches: false, addEventListener: () => undefined };
  vi.stubGlobal('matchMedia', () => none);
  vi.stubGlobal('navigator', { language: 'en-US' });
});

import '../messages/spoken-in-tests';
import { settling, shownValue } from './settle';

describe('settling', () => {
  it('edits the one field and leaves the others', () => {
    const request = settling('p', 'hybrid', 'H-17');
    expect(request).toMatchObject({ op: 'edit_planting', planting: 'p', edit: { hybrid: 'H-17', clear: [] } });
  });

  it('gives an area back as it was given', () => {
    const request = settling('p', 'area', '{"unit":"acres","size":38.5}');
    expect(request).toMatchObject({ edit: { area: { unit: 'acres', size: 38.5 } } });
  });

  it('empties a date or an area', () => {
    expect(settling('p', 'planted_on', '')).toMatchObject({ edit: { clear: ['planted_on'] } });
  });

  it('knows its limits', () => {
    expect(settling('p', 'newer', 'x')).toBeNull();
    expect(settling('p', 'outline', 'x')).toBeNull();
    expect(settling('p', 'name', '')).toBeNull();
    expect(settling('p', 'hybrid', '')).toMatchObject({ edit: { hybrid: '' } });
  });
});

describe('a shown value', () => {
  it.each([
    ['hybrid', '', 'none'],
    ['hybrid', 'H-17', 'H-17'],
    ['planted_on', '2026-05-20', 'May 20, 2026'],
    ['removed', 'true', 'yes'],
  ])('of %s, "%s", is "%s"', (field, value, shown) => expect(shownValue(field, value)).toBe(shown));
});
