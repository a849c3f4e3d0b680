/** A cure on trial: what would come of it is drawn, before faint and after blue, until it is taken or left. */
import { drag } from "./drag.svelte";
import { job } from "./job.svelte";
import { latest } from "./latest";
import { whole } from "./merge";
import { Refused, server } from "./network/client";
import type { BoardShown, Cure, Previewed } from "./wire";

class Trying {
  /** The cure that is tried. */
  now = $state.raw<Cure | null>(null);
  #told = $state.raw<Previewed | null>(null);
  readonly #ask = latest(
    (cure: Cure) => server.preview(job.revision, { do: "edits", edits: [...cure.edits] }).then((told) => ({ cure, told: whole(job.state, told) })),
    ({ cure, told }) => {
      if (this.now !== cure || drag.now !== null) return;
      this.#told = told;
      job.preview = told;
    },
    (error) => {
      if (!(error instanceof Refused)) throw error;
      this.leave();
    },
  );

  begin(cure: Cure): void {
    if (this.now === cure || drag.now !== null) return;
    this.leave();
    this.now = cure;
    job.trying = true;
    this.#ask(cure);
  }

  /** Nothing is left of it. */
  leave(): void {
    if (this.now === null) return;
    this.now = null;
    job.trying = false;
    if (job.preview === this.#told) job.preview = null;
    this.#told = null;
  }

  /** The boards as they are, of those that would stand elsewhere or go: where only cuts change nothing moves. */
  readonly before: readonly BoardShown[] = $derived.by(() => {
    const told = this.#told;
    if (!told || !job.state) return [];
    const after = new Map(told.boards.map((board) => [board.name, board]));
    return job.state.drawing.boards.filter((board) => {
      const then = after.get(board.name);
      return told.gone_boards.includes(board.name) || (then !== undefined && moved(board, then));
    });
  });

  /** What else would change, in a line. */
  readonly says: string = $derived.by(() => {
    const told = this.#told;
    if (!told || !job.state) return "";
    const known = new Set(job.state.notes.map((note) => note.id));
    const fresh = told.notes.filter((note) => !known.has(note.id) && note.severity !== "note");
    const boards = this.before.map((board) => board.name);
    return [
      boards.length > 0 ? `${boards.length > 3 ? `${boards.length} boards` : boards.join(", ")} ${boards.length === 1 ? "moves" : "move"}` : "No board moves",
      counted(told.joints.length, "joint is cut anew", "joints are cut anew"),
      counted(told.gone_joints.length, "joint comes apart", "joints come apart"),
      fresh.length > 0 ? `new to look at: ${fresh.map((note) => note.says).join("; ")}` : "",
    ].filter((part) => part !== "").join("; ");
  });
}

function moved(board: BoardShown, then: BoardShown): boolean {
  const [one, other] = [[...board.line, ...board.outline].flat(), [...then.line, ...then.outline].flat()];
  return one.length !== other.length || one.some((value, index) => Math.abs(value - (other[index] ?? 0)) > 1e-3) || board.front !== then.front || board.back !== then.back;
}

function counted(count: number, one: string, many: string): string {
  return count === 0 ? "" : `${count} ${count === 1 ? one : many}`;
}

export const trying = new Trying();
