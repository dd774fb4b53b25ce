import { words } from './words';

export const weather = {
  get chosenBy() {
    return { ...words.weather.chosenHow, nearest: (km: number): string => words.weather.chosenNearest(km) };
  },
};
