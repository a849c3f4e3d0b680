/** How each part is drawn: as the light has it, as a hand has it apart or alone, and chosen. */
import { HOME as AT_HOME, placed, type Matrix, type Shown, type Vec } from "../core/shown";
import type { Step } from "../core/wire";
import type { BoardBend } from "./bent";
import type { PartState } from "./drawn";
import type { PartModel } from "./model";

/** What decides how each part is shown, beside the light. */
export interface Looked {
  readonly apart: number;
  readonly alone: boolean;
  readonly boards: readonly string[];
  readonly joint: readonly [string, string] | null;
  readonly steps: readonly Step[];
}

/**
 * @param away how far each part is drawn from its place
 * @param lines by which the boards are drawn
 */
export function stateOf(shown: Shown | null, looked: Looked, away: (board: string) => Vec, lines: ReadonlyMap<string, BoardBend["line"]>): (board: string) => PartState {
  const chosen = new Set([...looked.boards, ...(looked.joint ?? [])]);
  const { pose, bend } = shown ?? {};
  return (board) => {
    const look = shown?.boards.get(board);
    const hidden = (pose !== undefined && !pose.has(board)) || (looked.alone && chosen.size > 0 && !chosen.has(board));
    const [places, line] = [bend?.of.get(board), lines.get(board)];
    return {
      look: hidden ? "hidden" : look?.faint ? "to come" : "solid",
      chosen: chosen.has(board),
      away: away(board),
      pose: pose?.get(board) ?? AT_HOME,
      tint: look?.tint?.share ?? null,
      bend: bend && places && line ? { places, factor: bend.factor, line } : null,
    };
  };
}

const turns = (pose: Matrix): boolean => AT_HOME.slice(0, 12).some((value, index) => value !== pose[index]);

/** The middle of a part where it rests: one that is only moved along its way in does not take the eye with it. */
export function resting(part: PartModel, shown: Shown | null): Vec {
  const pose = shown?.pose?.get(part.board);
  return pose && turns(pose) ? placed(pose, part.centre) : part.centre;
}
