/** How far each part goes when the piece is drawn apart: back along its way in, those put in last the farthest. */
import type { Vec } from "../core/shown";
import type { Step } from "../core/wire";
import type { PartModel } from "./model";

const OUT = 0.9; // of the piece's size, at the most

export function apartOf(parts: readonly PartModel[], steps: readonly Step[]): ReadonlyMap<string, Vec> {
  return steps.length > 0 ? alongWays(parts, steps) : outwards(parts);
}

function alongWays(parts: readonly PartModel[], steps: readonly Step[]): ReadonlyMap<string, Vec> {
  const far = new Map<string, Vec>();
  const unit = Math.max(1, ...parts.map((part) => part.size[2])) * 1.6;
  steps.forEach((step, index) => {
    const way = step.legs.at(-1)?.direction;
    if (!way) return;
    const share = unit * (0.6 + (1.4 * (index + 1)) / steps.length);
    for (const part of step.parts) {
      const before = far.get(part) ?? [0, 0, 0];
      far.set(part, [before[0] - way[0] * share, before[1] - way[1] * share, before[2] - way[2] * share]);
    }
  });
  return far;
}

/** Where no order is known: away from the middle of the piece. */
function outwards(parts: readonly PartModel[]): ReadonlyMap<string, Vec> {
  const count = Math.max(1, parts.length);
  const middle = [0, 1].map((axis) => parts.reduce((sum, part) => sum + (part.centre[axis] ?? 0), 0) / count);
  return new Map(
    parts.map((part): [string, Vec] => [part.board, [(part.centre[0] - (middle[0] ?? 0)) * OUT * 0.5, (part.centre[1] - (middle[1] ?? 0)) * OUT * 0.5, 0]]),
  );
}
