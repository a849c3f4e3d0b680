import type { Cure } from "../core/wire";
import { change } from "../core/change";

/** Take a cure: one step of undo, said as its button says it. */
export function take(cure: Cure): Promise<boolean> {
  return change(cure.edits, cure.label);
}
