// Where the device is, as the web view says. Nothing waits for it: a screen asks
// for it to be watched, and reads what is known at the moment.

import type { Place } from '../contract';

export type PositionState = 'off' | 'looking' | 'known' | 'refused' | 'unavailable';

/** A fix older than this says where the scout was, not where the scout is. */
export const OLD_S = 120;

interface Fix {
  latitude: number;
  longitude: number;
  accuracy_m: number;
  at: number;
}

class Position {
  state = $state<PositionState>('off');
  fix = $state.raw<Fix | null>(null);
  #watchers = 0;
  #watch: number | undefined;

  /** Watches until the returned function is called. The system may ask the scout the first time. */
  watch(): () => void {
    this.#watchers += 1;
    if (this.#watchers === 1) this.#start();
    let stopped = false;
    return () => {
      if (stopped) return;
      stopped = true;
      this.#watchers -= 1;
      if (this.#watchers === 0) this.#stop();
    };
  }

  /** Asks once more after it was refused or could not be had. */
  again(): void {
    if (this.#watchers === 0) return;
    this.#stop();
    this.#start();
  }

  /** Whether a fix can be had without a question to the scout. */
  async allowed(): Promise<boolean> {
    try {
      const permission = await navigator.permissions.query({ name: 'geolocation' });
      return permission.state === 'granted';
    } catch {
      return false;
    }
  }

  /** The place now, with its age; none before the first fix. */
  place(now = Date.now()): Place | null {
    const fix = this.fix;
    if (fix === null) return null;
    return {
      latitude: fix.latitude,
      longitude: fix.longitude,
      accuracy_m: Math.round(fix.accuracy_m * 10) / 10,
      age_s: Math.max(0, Math.round((now - fix.at) / 1000)),
    };
  }

  #start(): void {
    if (!('geolocation' in navigator)) {
      this.state = 'unavailable';
      return;
    }
    this.state = 'looking';
    this.#watch = navigator.geolocation.watchPosition(
      ({ coords, timestamp }) => {
        this.fix = {
          latitude: coords.latitude,
          longitude: coords.longitude,
          accuracy_m: coords.accuracy,
          // Some web views count from another origin: then it is of now.
          at: Math.abs(Date.now() - timestamp) < 86_400_000 ? timestamp : Date.now(),
        };
        this.state = 'known';
      },
      (error) => {
        if (error.code === error.PERMISSION_DENIED) this.state = 'refused';
        else if (this.fix === null) this.state = 'unavailable';
      },
      { enableHighAccuracy: true, maximumAge: 5_000, timeout: 30_000 },
    );
  }

  #stop(): void {
    if (this.#watch !== undefined) navigator.geolocation.clearWatch(this.#watch);
    this.#watch = undefined;
    this.state = 'off';
  }
}

export const position = new Position();
