/** The scene with its eye: rises from the flat drawing, is turned by hand, and lies down again. */
import { sight } from "../core/sight.svelte";
import type { Elevation } from "../core/wire";
import type { Step } from "../lights/together/order";
import { apartOf } from "./apart";
import { HOME, type PartState } from "./drawn";
import type { Vec } from "./edges";
import { between, eased, fitting, flat, moved, seenAt, type Eye, type Size } from "./eye";
import { lifting, STANDING, type Axis, type Pose } from "./lifting.svelte";
import { fetchModel, type PartModel } from "./model";
import { Scene, type Hit } from "./scene";
import { Turning } from "./turning";

const LIFT = 320; // ms
const SAY = 150; // ms without a move, after which the title block says how it is turned
const MARGIN = 34;
const NARROW = 800; // px: on a narrower sheet the tools at its foot would lie on the model
const TOOLS = 64;
const ROOM = 0.9; // for what is raised above the rest while it goes in

const NORMAL: Readonly<Record<Axis, Vec>> = { x: [-1, 0, 0], y: [0, -1, 0], z: [0, 0, -1] };

/** What decides how each part is shown, beside the pose. */
export interface Shown {
  readonly apart: number;
  readonly alone: boolean;
  readonly boards: readonly string[];
  readonly joint: readonly [string, string] | null;
  readonly steps: readonly Step[];
}

export class Stage {
  readonly #scene: Scene;
  readonly #watch: ResizeObserver;
  readonly #turning = new Turning(this);
  #size: Size = { width: 1, height: 1 };
  #parts: readonly PartModel[] = [];
  #shown: Shown = { apart: 0, alone: false, boards: [], joint: null, steps: [] };
  #ways: ReadonlyMap<string, Vec> = new Map();
  #revision = -1;
  #pose: Pose | null = null;
  #frame = 0;
  #timer = 0;
  #up = false;
  #told: (() => void)[] = [];
  eye: Eye = { yaw: 0, pitch: 0, scale: 0.3, middle: [0, 0, 0] };

  constructor(canvas: HTMLCanvasElement) {
    this.#scene = new Scene(canvas);
    this.#watch = new ResizeObserver(([entry]) => {
      if (!entry || entry.contentRect.width === 0) return;
      this.#size = { width: entry.contentRect.width, height: entry.contentRect.height };
      this.#scene.setSize(this.#size);
      if (this.#up) this.look(this.#best());
    });
    this.#watch.observe(canvas);
    this.#size = { width: canvas.clientWidth || 1, height: canvas.clientHeight || 1 };
    this.#scene.setSize(this.#size);
  }

  get parts(): readonly PartModel[] {
    return this.#parts;
  }

  /** Called whenever the eye or the parts have moved. */
  onMoved(tell: () => void): () => void {
    this.#told.push(tell);
    return () => (this.#told = this.#told.filter((one) => one !== tell));
  }

  async fetch(revision: number, drawing: Elevation | undefined): Promise<void> {
    if (revision === this.#revision || !drawing) return;
    this.#revision = revision;
    this.#parts = await fetchModel(revision);
    this.#scene.setParts(this.#parts);
    this.#setStates(); // parts that are new know nothing yet of what is chosen
    const studs = drawing.wall.flatMap((one) => (one.kind === "line" && one.pen === "stud" ? [one.points[0]?.[0] ?? 0] : []));
    this.#scene.setWall(drawing.extent, studs, Math.max(0, ...drawing.boards.map((board) => board.front)));
    this.#tell();
  }

  look(eye: Eye): void {
    this.eye = eye;
    clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => (lifting.turned = { yaw: Math.round(eye.yaw), pitch: Math.round(eye.pitch) }), SAY);
    this.#scene.look(eye);
    this.#tell();
  }

  #tell(): void {
    for (const tell of this.#told) tell();
  }

  /** From where all is seen, whatever has gone apart with it. */
  #best(from: Pick<Eye, "yaw" | "pitch"> = this.#pose ?? STANDING): Eye {
    const { yaw, pitch } = from;
    const points: Vec[] = [];
    for (const part of this.#parts) {
      const [dx0, dy0, dz0] = this.#awayOf(part.board);
      const [x, y, z] = [part.centre[0] + dx0, part.centre[1] + dy0, part.centre[2] + dz0];
      const long = Math.max(...part.size);
      const [dx, dy] = this.#reach(part, long);
      for (const sx of [-1, 1]) for (const sy of [-1, 1]) for (const sz of [-1, 1]) points.push([x + sx * dx, y + sy * dy, z + (sz * part.size[2]) / 2]);
    }
    if (points.length === 0) return flat(sight.view, this.#size);
    const foot = this.#size.width < NARROW ? TOOLS : 0;
    const eye = fitting(points, yaw, pitch, { ...this.#size, height: this.#size.height - foot }, MARGIN);
    return this.#pose ? { ...eye, scale: eye.scale * ROOM } : moved(eye, 0, -foot / 2);
  }

  /** Half of what a part covers across and up: its own axis is its matrix's first column. */
  #reach(part: PartModel, long: number): [number, number] {
    const [x = 1, y = 0] = part.matrix;
    return [Math.abs(x * long) / 2 + 12, Math.abs(y * long) / 2 + 12];
  }

  rise(): void {
    const goal = this.#best();
    if (this.#up) return this.#go(this.eye, goal);
    this.#up = true;
    this.#go(flat(sight.view, this.#size), goal);
  }

  lower(then: () => void): void {
    if (!this.#up) return then();
    this.#up = false;
    lifting.reset();
    this.#go(this.eye, flat(sight.view, this.#size), then);
  }

  #go(from: Eye, to: Eye, then?: () => void): void {
    cancelAnimationFrame(this.#frame);
    const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    const began = performance.now();
    const step = (now: number): void => {
      const share = still ? 1 : Math.min(1, (now - began) / LIFT);
      this.look(between(from, to, eased(share)));
      if (share < 1) this.#frame = requestAnimationFrame(step);
      else then?.();
    };
    step(began);
  }

  pose(pose: Pose | null, shown: Shown): void {
    const turned = pose !== null && (pose.yaw !== this.#pose?.yaw || pose.pitch !== this.#pose.pitch);
    const left = pose === null && this.#pose !== null;
    const spread = pose === null && shown.apart !== this.#shown.apart;
    this.#pose = pose;
    this.#shown = shown;
    this.#setStates();
    if (this.#up && (turned || left)) this.#go(this.eye, this.#best());
    else if (this.#up && spread) this.look(this.#best(this.eye));
    this.#tell();
  }

  /** How far a part is drawn from its place: on its way in, or with the piece drawn apart. */
  awayOf(board: string): Vec {
    return this.#pose ? this.#pose.stateOf(board).away : this.#awayOf(board);
  }

  /** How far a part is from its place when the piece is drawn apart. */
  #awayOf(board: string): Vec {
    const { apart } = this.#shown;
    const far = this.#pose === null && apart > 0 ? this.#ways.get(board) : undefined;
    return far ? [far[0] * apart, far[1] * apart, far[2] * apart] : [0, 0, 0];
  }

  #setStates(): void {
    const pose = this.#pose;
    const { apart, alone, boards, joint, steps } = this.#shown;
    this.#ways = apart > 0 ? apartOf(this.#parts, steps) : new Map();
    const chosen = new Set([...boards, ...(joint ?? [])]);
    this.#scene.showWall(pose === null, apart === 0 && !alone);
    this.#scene.setStates((board): PartState => {
      const standing: PartState = { ...HOME, away: this.#awayOf(board) };
      const state = pose ? { ...HOME, ...pose.stateOf(board) } : standing;
      const hidden = alone && chosen.size > 0 && !chosen.has(board);
      return { ...state, look: hidden ? "hidden" : state.look, chosen: chosen.has(board) };
    });
  }

  cutOpen(section: { axis: Axis; share: number } | null, extent: readonly [number, number, number, number]): void {
    if (!section) return this.#scene.setSection(null);
    const deep = Math.max(1, ...this.#parts.map((part) => part.centre[2] + part.size[2] / 2));
    const [low, high] = section.axis === "x" ? [extent[0], extent[2]] : section.axis === "y" ? [extent[1], extent[3]] : [0, deep];
    this.#scene.setSection({ normal: NORMAL[section.axis], at: -(low + (high - low) * section.share) });
  }

  repaint(): void {
    this.#scene.repaint();
  }

  at(point: Vec): [number, number] {
    return seenAt(this.eye, this.#size, point);
  }

  hit(x: number, y: number): Hit | null {
    return this.#scene.hit(x, y);
  }

  turnBy(yaw: number, pitch: number): void {
    this.look({ ...this.eye, yaw: this.eye.yaw + yaw, pitch: Math.max(-89, Math.min(89, this.eye.pitch + pitch)) });
  }

  moveBy(dx: number, dy: number): void {
    this.look(moved(this.eye, dx, dy));
  }

  growBy(by: number): void {
    this.look({ ...this.eye, scale: Math.max(0.01, Math.min(10, this.eye.scale * by)) });
  }

  key = (event: KeyboardEvent): void => this.#turning.key(event);
  down = (event: PointerEvent): void => this.#turning.down(event);
  move = (event: PointerEvent): void => this.#turning.move(event);
  up = (event: PointerEvent): void => this.#turning.up(event);
  cancel = (): void => this.#turning.cancel();
  wheel = (event: WheelEvent): void => this.#turning.wheel(event);

  dispose(): void {
    cancelAnimationFrame(this.#frame);
    clearTimeout(this.#timer);
    this.#watch.disconnect();
    this.#scene.dispose();
  }
}
