import { describe, expect, it } from 'vitest';

import { isInvitation } from './qr';

describe('an invitation', () => {
  it.each(['https://hub.example/#join=01234-56789-ABCDE-FGHJK', ' http://127.0.0.1:8447/#join=0123456789abcdefghjk\n'])(
    'is %s',
    (text) => expect(isInvitation(text)).toBe(true),
  );

  it.each([
    '',
    'https://hub.example/',
    'https://hub.example/#join=',
    'https://hub.example/#join=0123',
    'WIFI:T:WPA;S:barn;P:secret;;',
    'javascript:alert(1)#join=01234-56789-ABCDE-FGHJK',
    'see https://hub.example/#join=01234-56789-ABCDE-FGHJK',
  ])('is not %s', (text) => expect(isInvitation(text)).toBe(false));
});
