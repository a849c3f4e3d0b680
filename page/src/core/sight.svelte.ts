/** How the drawing is looked at: light, place and scale, what is chosen. None of it is part of the job. */
import type { CardOf, Pair } from "./wire";
import type { LengthUnit } from "./units";
import type { Point, Viewport } from "./viewport";

export type Drawer = "none" | "text" | "list";
export type Tool = "hand" | "wall" | "board" | "row" | "frame" | "lean";

class Sight {
  /** Name of the light; "" until one is chosen. */
  light = $state("");
  /** Names of boards chosen, the first one first. */
  boards = $state.raw<readonly string[]>([]);
  /** The pair of a chosen joint; `boards` is then empty. */
  joint = $state.raw<readonly [string, string] | null>(null);
  frame = $state<string | null>(null);
  /** A point in the bay that is chosen; nothing else is then. */
  bay = $state.raw<Point | null>(null);
  /** Points in the bays that are chosen with it. */
  bays = $state.raw<readonly Point[]>([]);
  hovered = $state<string | null>(null);
  /** Id of the note whose leader is drawn. */
  note = $state<string | null>(null);
  lifted = $state(false);
  drawer = $state<Drawer>("none");
  /** The line that the text is opened at; 0 for none. */
  line = 0;
  tool = $state<Tool>("hand");
  evening = $state(false);
  keys = $state(false);
  /** The card shows the versions of the job; choosing anything on the drawing shows that instead. */
  versions = $state(false);
  units = $state<LengthUnit>("mm");
  view = $state.raw<Viewport>({ scale: 0.3, x: 84, y: 600 });
  /** Whether the view follows the job's size, until a hand moves it. */
  fits = $state(true);

  readonly card: CardOf = $derived.by(() => {
    if (this.joint) return { joint: [this.joint[0], this.joint[1]] };
    if (this.frame !== null) return { frame: this.frame };
    const [first] = this.boards;
    return first === undefined ? {} : { board: first };
  });

  choose(name: string, more = false): void {
    this.versions = false;
    this.bay = null;
    this.joint = null;
    this.frame = null;
    if (!more) this.boards = [name];
    else if (this.boards.includes(name)) this.boards = this.boards.filter((other) => other !== name);
    else this.boards = [...this.boards, name];
  }

  chooseJoint(pair: readonly [string, string]): void {
    this.versions = false;
    this.boards = [];
    this.bay = null;
    this.frame = null;
    this.joint = pair;
  }

  chooseFrame(name: string, boards: readonly string[]): void {
    this.versions = false;
    this.bay = null;
    this.joint = null;
    this.frame = name;
    this.boards = boards;
  }

  chooseBay(at: Point): void {
    this.chooseNothing();
    this.versions = false;
    this.bay = at;
  }

  /** Bays chosen together, the one whose card is shown first. */
  chooseBays([first, ...others]: readonly Point[]): void {
    this.chooseNothing();
    this.bay = first ?? null;
    this.bays = others;
  }

  /** What is chosen and is there no longer is let go. */
  keepTo(boards: ReadonlyMap<string, unknown>, joints: readonly { readonly boards: Pair }[], frames: readonly { readonly name: string }[]): void {
    if (this.boards.some((name) => !boards.has(name))) this.boards = this.boards.filter((name) => boards.has(name));
    const chosen = this.joint;
    if (chosen && !joints.some(({ boards: pair }) => pair[0] === chosen[0] && pair[1] === chosen[1])) this.joint = null;
    if (this.frame !== null && !frames.some(({ name }) => name === this.frame)) this.frame = null;
  }

  chooseNothing(): void {
    this.boards = [];
    this.joint = null;
    this.frame = null;
    this.bay = null;
    this.bays = [];
    this.note = null;
  }
}

export const sight = new Sight();
