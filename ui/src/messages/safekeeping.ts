import { words } from './words';

type Trouble = keyof typeof words.safekeeping.troubleTitle;

/** What keeps a notebook from being opened, and what to do. */
interface TroubleText {
  title: string;
  text: string;
  steps: readonly string[];
}

export const safekeeping = {
  get trouble(): Record<Trouble, TroubleText> {
    const said = words.safekeeping;
    const trouble = (of: Trouble, steps: Record<string, string>) => ({
      title: said.troubleTitle[of],
      text: said.troubleText[of],
      steps: Object.values(steps),
    });
    return {
      damaged: trouble('damaged', said.troubleDamagedSteps),
      incomplete: trouble('incomplete', said.troubleIncompleteSteps),
      from_newer_app: trouble('from_newer_app', said.troubleFromNewerAppSteps),
      read_only: trouble('read_only', said.troubleReadOnlySteps),
      disk_full: trouble('disk_full', said.troubleDiskFullSteps),
      unavailable: trouble('unavailable', said.troubleUnavailableSteps),
    };
  },
};
