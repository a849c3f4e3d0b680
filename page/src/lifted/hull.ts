import type { Vector2 } from "three";

/** The convex hull of points, anticlockwise (monotone chain). */
export function hull(points: readonly Vector2[]): Vector2[] {
  const sorted = [...points].sort((one, other) => one.x - other.x || one.y - other.y);
  const half = (all: readonly Vector2[]): Vector2[] => {
    const chain: Vector2[] = [];
    for (const point of all) {
      for (;;) {
        const [one, other] = [chain.at(-2), chain.at(-1)];
        if (!one || !other || (other.x - one.x) * (point.y - one.y) - (other.y - one.y) * (point.x - one.x) > 0) break;
        chain.pop();
      }
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}
