// Distances and directions on the ground, near enough for a walk across a field.

/** A place, WGS 84, degrees. */
export interface OnGround {
  latitude: number;
  longitude: number;
}

/** Mean radius of the earth (IUGG), meters. */
const EARTH_M = 6_371_008.8;
const RADIAN = Math.PI / 180;

/** Eight directions, from north by the right hand. */
export const DIRECTIONS = ['n', 'ne', 'e', 'se', 's', 'sw', 'w', 'nw'] as const;
export type Direction = (typeof DIRECTIONS)[number];

/** Meters east and north of `from`; good to a thousandth over a few kilometers. */
export function metersFrom(from: OnGround, to: OnGround): { east: number; north: number } {
  const degree = EARTH_M * RADIAN;
  return {
    east: (to.longitude - from.longitude) * degree * Math.cos(from.latitude * RADIAN),
    north: (to.latitude - from.latitude) * degree,
  };
}

/** Meters between two places. */
export function metersApart(from: OnGround, to: OnGround): number {
  const { east, north } = metersFrom(from, to);
  return Math.hypot(east, north);
}

/** Degrees from north, by the right hand, 0 to 360. */
export function bearing(from: OnGround, to: OnGround): number {
  const { east, north } = metersFrom(from, to);
  return (Math.atan2(east, north) / RADIAN + 360) % 360;
}

/** The nearest of eight directions. */
export function direction(degrees: number): Direction {
  return DIRECTIONS[Math.round(degrees / 45) % 8] ?? 'n';
}

/** Paces of two and a half feet. */
export function paces(meters: number): number {
  return Math.round(meters / 0.762);
}
