import { describe, expect, it } from 'vitest';

import type { Trouble } from '../call';
import { mayLeaveHere } from './leaving';

describe('leaving without the hub', () => {
  it.each<Trouble>(['no_signal', 'not_trusted', 'not_let_in', 'hub_version', 'parted'])(
    'may be where the hub is lost or another: %s',
    (code) => expect(mayLeaveHere(code)).toBe(true),
  );

  it.each<Trouble>(['last_owner', 'not_allowed', 'no_crew', 'crew_failed', 'removed', 'internal'])(
    'may not be where it would go round an answer: %s',
    (code) => expect(mayLeaveHere(code)).toBe(false),
  );
});
