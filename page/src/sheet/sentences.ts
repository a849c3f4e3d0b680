/** The sentences that are drawn with: words with blanks, the same for pointer, keyboard and touch. Pure data. */
import type { Tool } from "../core/sight.svelte";

export type Word = Exclude<Tool, "hand">;
export type Field = "x" | "y" | "ex" | "ey" | "lean" | "long" | "wide" | "high" | "thick" | "deep" | "studs" | "every" | "count" | "clear" | "centres";

export interface Blank {
  readonly field: Field;
  /** For readers that speak, and where the blank stands on the drawing. */
  readonly says: string;
  readonly unit: "length" | "degrees" | "number";
}

const blank = (field: Field, says: string, unit: Blank["unit"] = "length"): Blank => ({ field, says, unit });
const ACROSS = blank("x", "across from the wall's left end");
const UP = blank("y", "up from the floor");

export interface Sentence {
  readonly parts: readonly (string | Blank)[];
  readonly hint: string;
}

export const SENTENCES: Readonly<Record<Word, Sentence>> = {
  wall: {
    parts: [
      "a wall", blank("wide", "width of the wall"), "wide and", blank("high", "height of the wall"), "high; boards", blank("thick", "thickness of the stock"), "thick and",
      blank("deep", "depth of the boards"), "deep; studs first at", blank("studs", "centre of the first stud"), "then every", blank("every", "from stud to stud"),
    ],
    hint: "What is typed is drawn at once; what is not known is left open.",
  },
  board: {
    parts: [
      "a board from", ACROSS, "across and", UP, "up, to", blank("ex", "end across"), "across and", blank("ey", "end up"), "up, leaning",
      blank("lean", "leaning right of plumb, in degrees", "degrees"), "° right,", blank("long", "length"), "long",
    ],
    hint: "Press where it starts and where it ends, or type any of the figures.",
  },
  row: {
    parts: [
      "a row of", blank("count", "how many boards", "number"), "spaced", blank("clear", "clear between them"), "clear, or", blank("centres", "from centre to centre"), "on centres, leaning",
      blank("lean", "leaning right of plumb, in degrees", "degrees"), "°",
    ],
    hint: "Press the bay; arrows go to another. No spacing: equal bays. A spacing and no number: as many as fit.",
  },
  frame: {
    parts: ["a frame from", ACROSS, "across and", UP, "up,", blank("wide", "width outside"), "wide and", blank("high", "height outside"), "high, outside"],
    hint: "Pull it open, press corner by corner, or type. The first corner again closes it; Enter leaves it open.",
  },
  lean: {
    parts: ["leans", blank("lean", "leaning from plumb, in degrees", "degrees"), "°"],
    hint: "",
  },
};

export const fieldsOf = (word: Word): readonly Blank[] => SENTENCES[word].parts.filter((part): part is Blank => typeof part !== "string");

/** What is wanted before it can be put in. */
export const WANTED = {
  bay: "There is no bay yet: boards close one all round, or the wall's width and height are known.",
  inside: "No bay is there: boards close one all round.",
  count: "A row has from 1 to 100 boards.",
  start: "Press where it starts, or type how far across and up.",
  end: "Now its other end: press there, or type figures of it.",
  first: "Pull it open, press its first corner, or type where that is.",
  corner: "Now the next corner, or how wide and high it is.",
  three: "A frame has three corners or more; what is set stays.",
} as const;
