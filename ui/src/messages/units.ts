// Measures in the units the settings ask for.

import { device } from '../settings/device.svelte';
import { number } from './format';

function metric(): boolean {
  return device.settings?.units === 'metric';
}

/** A temperature given in deg F. */
export function temperature(f: number): string {
  return metric() ? `${number(((f - 32) * 5) / 9)} °C` : `${number(f)} °F`;
}

/** Rain given in inches. */
export function rain(inches: number): string {
  return metric() ? `${number(inches * 25.4)} mm` : `${number(inches, 2)} in`;
}
