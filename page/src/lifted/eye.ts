/** The eye over the model: turned about the plumb line and tipped, without perspective, so that lines stay parallel. */
import type { Viewport } from "../core/viewport";
import type { Vec } from "../core/shown";

export interface Eye {
  /** Degrees to the right of straight on. */
  readonly yaw: number;
  /** Degrees above level. */
  readonly pitch: number;
  /** px a mm */
  readonly scale: number;
  /** The point of the job in the middle of the picture. */
  readonly middle: Vec;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

const radians = (angle: number): number => (angle * Math.PI) / 180;

export function axes(eye: Pick<Eye, "yaw" | "pitch">): { right: Vec; up: Vec; toEye: Vec } {
  const [sy, cy, sp, cp] = [Math.sin(radians(eye.yaw)), Math.cos(radians(eye.yaw)), Math.sin(radians(eye.pitch)), Math.cos(radians(eye.pitch))];
  return { right: [cy, 0, -sy], up: [-sy * sp, cp, -cy * sp], toEye: [sy * cp, sp, cy * cp] };
}

const dot = (one: Vec, other: Vec): number => one[0] * other[0] + one[1] * other[1] + one[2] * other[2];

/** Straight on, exactly over the flat drawing. */
export function flat(view: Viewport, size: Size): Eye {
  return { yaw: 0, pitch: 0, scale: view.scale, middle: [(size.width / 2 - view.x) / view.scale, (view.y - size.height / 2) / view.scale, 0] };
}

/** The eye from which all points are seen within a margin of px. */
export function fitting(points: readonly Vec[], yaw: number, pitch: number, size: Size, margin: number): Eye {
  const { right, up } = axes({ yaw, pitch });
  const [xs, ys] = [points.map((point) => dot(point, right)), points.map((point) => dot(point, up))];
  const [left, wide] = [Math.min(...xs), Math.max(...xs) - Math.min(...xs)];
  const [low, high] = [Math.min(...ys), Math.max(...ys) - Math.min(...ys)];
  const scale = Math.min((size.width - 2 * margin) / Math.max(1, wide), (size.height - 2 * margin) / Math.max(1, high));
  const [x, y] = [left + wide / 2, low + high / 2];
  return { yaw, pitch, scale, middle: [right[0] * x + up[0] * y, right[1] * x + up[1] * y, right[2] * x + up[2] * y] };
}

export function between(one: Eye, other: Eye, share: number): Eye {
  if (share >= 1) return other;
  const mix = (from: number, to: number): number => from + (to - from) * share;
  const middle: Vec = [mix(one.middle[0], other.middle[0]), mix(one.middle[1], other.middle[1]), mix(one.middle[2], other.middle[2])];
  return { yaw: mix(one.yaw, other.yaw), pitch: mix(one.pitch, other.pitch), scale: mix(one.scale, other.scale), middle };
}

export function seenAt(eye: Eye, size: Size, point: Vec): [number, number] {
  const { right, up } = axes(eye);
  const away: Vec = [point[0] - eye.middle[0], point[1] - eye.middle[1], point[2] - eye.middle[2]];
  return [size.width / 2 + dot(away, right) * eye.scale, size.height / 2 - dot(away, up) * eye.scale];
}

export function moved(eye: Eye, dx: number, dy: number): Eye {
  const { right, up } = axes(eye);
  const [x, y] = [-dx / eye.scale, dy / eye.scale];
  const middle: Vec = [eye.middle[0] + right[0] * x + up[0] * y, eye.middle[1] + right[1] * x + up[1] * y, eye.middle[2] + right[2] * x + up[2] * y];
  return { ...eye, middle };
}

/** Slow at both ends. */
export const eased = (share: number): number => (share < 0.5 ? 2 * share * share : 1 - (-2 * share + 2) ** 2 / 2);
