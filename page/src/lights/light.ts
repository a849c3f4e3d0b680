/** What a folder of lights/ says of itself. Adding a light is adding a folder with such an `index.ts`. */
import type { Component } from "svelte";

export interface Light {
  readonly name: string;
  /** The studies whose notes are its own; the set-out has all that no light names. */
  readonly studies?: readonly string[];
  readonly word: string;
  /** Its place in the order of the job. */
  readonly order: number;
  /** Why it cannot be looked at; none where it can. */
  readonly waits?: string;
  /** Beside the sheet while nothing is chosen, or always (`keepsSide`). */
  readonly Side?: Component;
  readonly keepsSide?: boolean;
  /** In the drawing's SVG, over the boards; its units are px. */
  readonly Over?: Component;
  /** In place of the notes at the foot. */
  readonly Foot?: Component;
  /** In place of the drawing. */
  readonly Whole?: Component;
}
