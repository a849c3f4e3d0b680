/** Where the sheet's drawing lies on the screen: job mm (y up) to px (y down) and back. */
export type Point = readonly [number, number];
export type Box = readonly [left: number, bottom: number, right: number, top: number];

export interface Viewport {
  /** px a mm */
  readonly scale: number;
  /** px of the job's origin */
  readonly x: number;
  readonly y: number;
}

export const LEAST_SCALE = 0.005;
export const MOST_SCALE = 20;

export function toScreen(view: Viewport, [x, y]: Point): Point {
  return [view.x + x * view.scale, view.y - y * view.scale];
}

export function toJob(view: Viewport, [x, y]: Point): Point {
  return [(x - view.x) / view.scale, (view.y - y) / view.scale];
}

/** Grow or shrink around a place on the screen, which stays where it is. */
export function zoomed(view: Viewport, [x, y]: Point, by: number): Viewport {
  const scale = Math.min(MOST_SCALE, Math.max(LEAST_SCALE, view.scale * by));
  const grown = scale / view.scale;
  return { scale, x: x - (x - view.x) * grown, y: y - (y - view.y) * grown };
}

export function panned(view: Viewport, dx: number, dy: number): Viewport {
  return { ...view, x: view.x + dx, y: view.y + dy };
}

export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** The largest scale that shows the whole box within the margins, the box standing on the lower margin. */
export function fitted([left, bottom, right, top]: Box, width: number, height: number, margins: Margins): Viewport {
  const wide = Math.max(1, width - margins.left - margins.right);
  const high = Math.max(1, height - margins.top - margins.bottom);
  const scale = Math.min(wide / Math.max(1, right - left), high / Math.max(1, top - bottom));
  return { scale, x: margins.left - left * scale, y: margins.top + high - (high - (top - bottom) * scale) / 2 + bottom * scale };
}
