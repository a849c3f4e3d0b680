/** A move under way: what is gripped, how far it has come, what it snaps to. It is saved when the hand lets go. */
import { doing } from "./change";
import { job } from "./job.svelte";
import { latest } from "./latest";
import { lately } from "./lately.svelte";
import { Refused, server } from "./network/client";
import { sight } from "./sight.svelte";
import { brought, meantBy, snapped, type Snapped } from "./snap";
import { typedMove } from "./typed-move";
import type { Doing, Gripped, Offer, Target } from "./wire";
import type { Point } from "./viewport";

const REACH_PX = 8;

export interface Move {
  readonly target: Target;
  readonly raw: Point;
  readonly by: Point;
  readonly snap: Snapped | null;
  readonly typed: string;
  readonly choice: number;
}

class Drag {
  now = $state.raw<Move | null>(null);
  gripped = $state.raw<Gripped | null>(null);
  /** Leaves snapping while a key is held. */
  free = $state(false);
  /** The move is meant as it is, as one by arrow keys: nothing snaps, nothing is rounded to a step. */
  exact = false;
  readonly #ask = latest(
    (what: Doing) => server.preview(job.revision, what),
    (told) => {
      if (this.now !== null) job.preview = told;
    },
    (error) => {
      if (error instanceof Refused) job.trouble = error.fault;
    },
  );

  async grip(target: Target): Promise<void> {
    this.now = { target, raw: [0, 0], by: [0, 0], snap: null, typed: "", choice: 0 };
    this.gripped = null;
    try {
      const gripped = await server.grip(job.revision, target);
      if (this.now?.target !== target) return;
      this.gripped = gripped;
      this.#settle();
    } catch (error) {
      this.drop();
      if (error instanceof Refused) job.trouble = error.fault;
    }
  }

  move(raw: Point): void {
    if (this.now === null) return;
    this.now = { ...this.now, raw };
    this.#settle();
  }

  /** A letter of a typed move: "120" goes that far the way the hand went, "120, -40" across and up. */
  type(letter: string): void {
    if (this.now === null) return;
    const typed = letter === "Backspace" ? this.now.typed.slice(0, -1) : this.now.typed + letter;
    this.now = { ...this.now, typed };
    this.#settle();
  }

  choose(choice: number): void {
    if (this.now === null || this.gripped?.offers[choice] === undefined) return;
    this.now = { ...this.now, choice };
    this.#settle();
  }

  /** Whether the way chosen writes what is snapped to, not only its figure. */
  get relates(): boolean {
    return this.now !== null && (this.gripped?.offers[this.now.choice]?.relates ?? false);
  }

  drop(): void {
    this.now = null;
    this.gripped = null;
    job.preview = null;
  }

  /** Let go: the move is saved as one step of undo. */
  async release(): Promise<void> {
    const { now, gripped } = this;
    if (now === null) return;
    if (gripped === null || (now.by[0] === 0 && now.by[1] === 0)) return this.drop();
    this.now = null;
    const done = this.#doing(now, gripped);
    const again = (offer: Offer, name: string): Doing => ({ ...done, choice: offer.id, name });
    if (await doing(done)) lately.set(gripped.offers, now.choice, again);
    if (this.now === null) this.drop();
  }

  #settle(): void {
    const { now, gripped } = this;
    if (now === null || gripped === null) return;
    const typed = typedMove(now.typed, now.raw, gripped.along, sight.units);
    const step = this.exact ? 0 : gripped.step;
    const snap = typed ? null : snapped({ ...gripped, step }, now.raw, REACH_PX / sight.view.scale, this.free || this.exact);
    const by = typed ?? snap?.by ?? now.raw;
    const moved = by[0] !== now.by[0] || by[1] !== now.by[1];
    this.now = { ...now, by, snap };
    if (moved) this.#ask(this.#doing(this.now, gripped));
  }

  #doing(move: Move, gripped: Gripped): Extract<Doing, { do: "drag" }> {
    const typed = move.snap === null && move.typed !== "";
    const placed = move.snap?.snaps.some((one) => one.snap === "x" || one.snap === "y") ?? false;
    const exact = typed || placed;
    const meant = meantBy(move.snap?.snaps.filter((one) => brought(one, move.by)) ?? []);
    return { do: "drag", target: move.target, by: [move.by[0], move.by[1]], exact, choice: gripped.offers[move.choice]?.id ?? "", name: "", meant };
  }
}

export const drag = new Drag();
