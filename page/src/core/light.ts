/** What a folder of lights/ says of itself. Adding a light is adding a folder with such an `index.ts`: docs/adding-a-light.md. */
import type { Component } from "svelte";
import type { Shown } from "./shown";
import type { Results, StudyName } from "./wire";

/** What the studies that a light names have answered; null for one that has not. */
export type ResultsOf<Name extends StudyName> = { readonly [Study in Name]: Results[Study] | null };

export interface Light<Name extends StudyName = StudyName> {
  readonly name: string;
  readonly word: string;
  /** What is looked at in it, in a few words: told where the hand rests on its word. */
  readonly says?: string;
  /** Its place in the order of the job. */
  readonly order: number;
  /** The studies it shows; their notes are its own. */
  readonly studies: readonly Name[];
  /** The page opens in it, and it has the notes of all that no light names. */
  readonly first?: boolean;
  /** What it is announced for, while it is not made: it is not shown. */
  readonly waits?: string;
  /** It shows nothing before there is a board, and says so. */
  readonly needsBoards?: true;
  /** Escape leaves it, for the light that one came from. */
  readonly leaves?: true;
  /** What an arrow key does in it, by 1 or -1, in place of moving what is chosen. */
  step?(by: 1 | -1): void;
  /** How boards and joints are to look; null where they are drawn as always. `at` is how far its slider is, 0 at first. */
  show?(results: ResultsOf<Name>, at: number): Shown | null;
  /** Beside the sheet while nothing is chosen, or always (`keepsSide`). */
  readonly Side?: Component;
  readonly keepsSide?: boolean;
  /** In the drawing's SVG, over boards, marks and names; its units are px. */
  readonly Over?: Component;
  /** In place of the notes at the foot. */
  readonly Foot?: Component;
  /** In place of the drawing. */
  readonly Whole?: Component;
}

/** A light, its results typed by the studies it names. */
export function aLight<const Name extends StudyName = never>(one: Light<Name>): Light<Name> {
  return one;
}
