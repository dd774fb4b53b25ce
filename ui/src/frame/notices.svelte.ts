// One line at the foot of the screen that says what was just done, with the
// way to take it back. It is read out, and never waits for an answer.

export interface Notice {
  text: string;
  action?: { label: string; run: () => void };
}

const SHOWN_FOR_MS = 20_000;

class Notices {
  current = $state<Notice | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;

  show(notice: Notice): void {
    this.current = notice;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.clear(), SHOWN_FOR_MS);
  }

  clear(): void {
    clearTimeout(this.#timer);
    this.current = null;
  }
}

export const notices = new Notices();
