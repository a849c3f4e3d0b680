/** A step on the wall as a look of each board: what stands there, what comes, what is still to come and at which step. */
import type { Look, Shown } from "../../core/shown";
import { standing, type SiteStep } from "./steps";

export function shownAt(steps: readonly SiteStep[], number: number): Shown | null {
  if (steps.length === 0) return null;
  const there = standing(steps, number);
  const coming = new Set(steps.find((one) => one.number === number)?.parts ?? []);
  const boards = new Map<string, Look>();
  for (const step of [...steps].reverse()) for (const part of step.parts) {
    if (!there.has(part) && !coming.has(part)) boards.set(part, { faint: true, label: `step ${step.number}`, rank: 2 });
  }
  for (const part of coming) boards.set(part, { rank: 1 });
  return { boards, joints: new Map(), stands: number === 0 ? "hanging, the wall" : `hanging, step ${number} of ${steps.length}` };
}
