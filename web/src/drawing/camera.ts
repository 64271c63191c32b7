/** Where the eye stands over the drawing: room coordinates (mm, y up) to the window's (px, y down) and back. */
export type Place = readonly [x: number, y: number];

export interface Window {
  readonly width: number;
  readonly height: number;
}

export interface Camera {
  /** The place in the room that lies in the middle of the window. */
  readonly middle: Place;
  /** Pixels to one mm. */
  readonly scale: number;
}

export interface Bounds {
  readonly low: Place;
  readonly high: Place;
}

const EMPTY_ROOM: Bounds = { low: [0, 0], high: [4000, 3000] };
const LEAST_EXTENT = 10;
const CLOSEST = 2;

export function boundsOf(places: readonly Place[]): Bounds {
  if (places.length === 0) return EMPTY_ROOM;
  const xs = places.map(([x]) => x);
  const ys = places.map(([, y]) => y);
  return { low: [Math.min(...xs), Math.min(...ys)], high: [Math.max(...xs), Math.max(...ys)] };
}

/** The camera that shows all of `bounds` with `margin` px of air around it. */
export function fit({ low, high }: Bounds, window: Window, margin: number): Camera {
  const across = Math.max(high[0] - low[0], LEAST_EXTENT);
  const up = Math.max(high[1] - low[1], LEAST_EXTENT);
  const free: Place = [Math.max(window.width - 2 * margin, 1), Math.max(window.height - 2 * margin, 1)];
  return { middle: [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2], scale: Math.min(free[0] / across, free[1] / up) };
}

/** The camera that keeps a strip of `strip` px free at the right or at the foot, whichever leaves the room larger. */
export function fitBeside(bounds: Bounds, window: Window, margin: number, strip: number): Camera {
  const beside = fit(bounds, { width: window.width - strip, height: window.height }, margin);
  const above = fit(bounds, { width: window.width, height: window.height - strip }, margin);
  const isBeside = beside.scale >= above.scale;
  const { scale, middle: [x, y] } = isBeside ? beside : above;
  return { scale, middle: isBeside ? [x + strip / 2 / scale, y] : [x, y - strip / 2 / scale] };
}

export function toWindow(camera: Camera, window: Window, [x, y]: Place): Place {
  return [
    window.width / 2 + (x - camera.middle[0]) * camera.scale,
    window.height / 2 - (y - camera.middle[1]) * camera.scale,
  ];
}

export function toRoom(camera: Camera, window: Window, [x, y]: Place): Place {
  return [
    camera.middle[0] + (x - window.width / 2) / camera.scale,
    camera.middle[1] - (y - window.height / 2) / camera.scale,
  ];
}

/** Nearer by `factor` while what lies under `hold` (px) stays under it; never closer than 2 px to the mm. */
export function zoomed(camera: Camera, window: Window, hold: Place, factor: number): Camera {
  const held = toRoom(camera, window, hold);
  const scale = Math.min(camera.scale * factor, CLOSEST);
  return {
    scale,
    middle: [held[0] - (hold[0] - window.width / 2) / scale, held[1] + (hold[1] - window.height / 2) / scale],
  };
}

/** The drawing dragged by `by` px. */
export function dragged(camera: Camera, [dx, dy]: Place): Camera {
  return { ...camera, middle: [camera.middle[0] - dx / camera.scale, camera.middle[1] + dy / camera.scale] };
}

function between([ax, ay]: Place, [bx, by]: Place): Place {
  return [(ax + bx) / 2, (ay + by) / 2];
}

export function distance([ax, ay]: Place, [bx, by]: Place): number {
  return Math.hypot(bx - ax, by - ay);
}

/** Two fingers moved from `before` to `after`: zoom by their spread, drag by their middle. */
export function pinched(camera: Camera, window: Window, before: readonly [Place, Place], after: readonly [Place, Place]): Camera {
  const from = between(...before);
  const to = between(...after);
  const spread = distance(...before);
  const moved = dragged(camera, [to[0] - from[0], to[1] - from[1]]);
  return spread === 0 ? moved : zoomed(moved, window, to, distance(...after) / spread);
}
