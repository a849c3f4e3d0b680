/** The job as the server last told it, with what a drag previews laid over it. */
import { merged } from "./merge";
import { sight } from "./sight.svelte";
import type { LengthUnit } from "./units";
import type { BoardShown, Fault, JointShown, Previewed, State } from "./wire";

class Job {
  state = $state.raw<State | null>(null);
  /** What a drag or a half-typed value would give; nothing of it is saved. */
  preview = $state.raw<Previewed | null>(null);
  /** The preview is of a cure: the notes stay as they are, since one of them is under the hand. */
  trying = $state(false);
  /** Why the last thing asked for was not done. */
  trouble = $state.raw<Pick<Fault, "says" | "remedy"> | null>(null);
  /** What is asked before a change that would lose something of what is cut. */
  asked = $state.raw<{ says: string; answer: (sure: boolean) => void } | null>(null);
  /** The socket is away: nothing can be changed now. */
  lost = $state(false);
  #units: LengthUnit | null = null;
  progress = $state.raw<{ done: number; says: string } | null>(null);

  readonly shown: State | null = $derived(merged(this.state, this.preview, this.trying));
  readonly boardByName: ReadonlyMap<string, BoardShown> = $derived(
    new Map((this.shown?.drawing.boards ?? []).map((board) => [board.name, board])),
  );

  jointsOf(board: string): JointShown[] {
    return (this.shown?.drawing.joints ?? []).filter((joint) => joint.boards.includes(board));
  }

  jointOf(pair: readonly [string, string]): JointShown | undefined {
    return this.shown?.drawing.joints.find((joint) => joint.boards[0] === pair[0] && joint.boards[1] === pair[1]);
  }

  get revision(): number {
    return this.state?.revision ?? 0;
  }

  /** Take in a state, unless a later one is here already. */
  take(state: State): void {
    if (this.state !== null && state.revision < this.state.revision) return;
    const units = state.job?.units;
    if (units !== undefined && units !== this.#units) sight.units = this.#units = units;
    this.state = state;
  }

  /** The units in which the server reads a bare figure. */
  get units(): LengthUnit {
    return this.#units ?? "mm";
  }
}

export const job = new Job();
