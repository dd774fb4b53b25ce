// From degrees to a drawing: north up, the same scale both ways, as large as fits.

import type { OnGround } from './ground';

export interface Frame {
  width: number;
  height: number;
  /** Pixels of the drawing to a meter. */
  scale: number;
  x: (longitude: number) => number;
  y: (latitude: number) => number;
}

/** A frame of this width around everything given, at most `highest` high. */
export function frameAround(points: readonly OnGround[], width: number, highest: number, margin: number): Frame {
  const latitudes = points.map((point) => point.latitude);
  const longitudes = points.map((point) => point.longitude);
  const [south, north] = [Math.min(...latitudes), Math.max(...latitudes)];
  const [west, east] = [Math.min(...longitudes), Math.max(...longitudes)];
  const degree = 111_195;
  const perEast = degree * Math.cos((((south + north) / 2) * Math.PI) / 180);
  // A single stop still gets a hundred meters around it.
  const across = Math.max((east - west) * perEast, 100);
  const up = Math.max((north - south) * degree, 100);
  const scale = Math.min((width - 2 * margin) / across, (highest - 2 * margin) / up);
  const height = Math.min(highest, up * scale + 2 * margin);
  const middle = { longitude: (west + east) / 2, latitude: (south + north) / 2 };
  return {
    width,
    height,
    scale,
    x: (longitude) => width / 2 + (longitude - middle.longitude) * perEast * scale,
    y: (latitude) => height / 2 - (latitude - middle.latitude) * degree * scale,
  };
}

/** The rings of an outline as one path; holes stay open by the even-odd rule. */
export function outlinePath(rings: readonly (readonly (readonly (readonly number[])[])[])[], frame: Frame): string {
  return rings
    .flat()
    .map((ring) => {
      const corners = ring.map(([east = 0, north = 0]) => `${frame.x(east).toFixed(1)} ${frame.y(north).toFixed(1)}`);
      return `M${corners.join('L')}Z`;
    })
    .join('');
}

/** A round length for the scale bar: no more than `most` meters (or feet). */
export function roundLength(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((step) => step * power).find((length) => length <= most) ?? power;
}
