// The way back from the last thing done about a harvest, for the line at the
// foot of the screen.

import { v7 as uuidv7 } from 'uuid';

import { call } from '../call';
import { notices, type Notice } from '../frame/notices.svelte';
import { say } from '../messages';

/** Takes back the last thing done about a planting's harvest, or about the terms of all. */
export function undoAsNotice(planting: string | null): Pick<Notice, 'undo'> {
  // Sent again, the same id does not go a second step back.
  const id = uuidv7();
  return {
    async undo() {
      await call({ op: 'undo_harvest', id, planting });
      notices.show({ text: say.harvest.taken });
    },
  };
}
