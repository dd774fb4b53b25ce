import { afterEach, describe, expect, it } from 'vitest';

import { detail } from './details';
import './spoken-in-tests';
import { speak } from './words';

afterEach(() => speak('en'));

describe('what is wrong with a row', () => {
  it('is said in the language spoken, with what stands in the file', async () => {
    const fault = { code: 'not_a_date', column: 'walked_on', text: '08/01/2026' } as const;
    expect(detail(fault)).toBe("walked_on '08/01/2026' is no date: use YYYY-MM-DD");
    await speak('es');
    expect(detail(fault)).toBe("walked_on '08/01/2026' no es una fecha: use AAAA-MM-DD");
  });

  it('needs no arguments where the message has none', () => {
    expect(detail({ code: 'share_on_boot' })).toBe('boot takes no share: leave it empty');
  });

  it('writes years as years', () => {
    const fault = { code: 'far_date', column: 'walked_on', date: '0026-08-01', first: '1950', last: '2100' } as const;
    expect(detail(fault)).toBe('walked_on 0026-08-01 is outside 1950 to 2100: check the year');
  });
});
