/** The room as the drawing has it: its lines stand only where the job says where it ends. */
import type { State } from "../../core/wire";

export interface Ends {
  readonly left: number | null;
  readonly right: number | null;
  readonly ceiling: number | null;
  readonly floor: boolean;
}

export function roomOf({ drawing, wall }: Pick<State, "drawing" | "wall">): Ends {
  const middle = (drawing.extent[0] + drawing.extent[2]) / 2;
  const upright = drawing.wall.flatMap((one) => {
    if (one.kind !== "line" || one.pen !== "wall") return [];
    const [from, to] = [one.points[0], one.points[1]];
    return from && to && from[0] === to[0] ? [from[0]] : [];
  });
  const [left, right] = [upright.filter((x) => x <= middle), upright.filter((x) => x > middle)];
  return { left: left[0] ?? null, right: right[0] ?? null, ceiling: wall?.high ?? null, floor: wall?.floor ?? false };
}
