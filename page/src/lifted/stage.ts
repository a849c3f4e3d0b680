/** The scene with its eye: rises from the flat drawing, is turned by hand, and lies down again. */
import type { Rect } from "../core/rect";
import { sight } from "../core/sight.svelte";
import { placed, type Look, type Shown } from "../core/shown";
import type { Elevation } from "../core/wire";
import { apartOf } from "./apart";
import type { BoardBend } from "./bent";
import type { Vec } from "../core/shown";
import { between, eased, fitting, flat, moved, seenAt, type Eye, type Size } from "./eye";
import { lifting, STANDING, type Axis } from "./lifting.svelte";
import { fetchModel, reach, type PartModel } from "./model";
import { Scene, type Hit } from "./scene";
import { resting, stateOf, type Looked } from "./states";
import { Turning } from "./turning";

const LIFT = 320; // ms
const SAY = 150; // ms without a move, after which the title block says how it is turned
const MARGIN = 34; // px, and on a small sheet this share of it
const SMALL = 0.06;
const NARROW = 800; // px: on a narrower sheet the tools at its foot would lie on the model
const TOOLS = 64;
const LEGEND = 26;
const ROOM = 0.9; // for what is raised above the rest while it goes in

const NORMAL: Readonly<Record<Axis, Vec>> = { x: [-1, 0, 0], y: [0, -1, 0], z: [0, 0, -1] };

export class Stage {
  readonly #scene: Scene;
  readonly #watch: ResizeObserver;
  readonly #turning = new Turning(this);
  #size: Size = { width: 1, height: 1 };
  #parts: readonly PartModel[] = [];
  #looked: Looked = { apart: 0, alone: false, boards: [], joint: null, steps: [] };
  #ways: ReadonlyMap<string, Vec> = new Map();
  #lines: ReadonlyMap<string, BoardBend["line"]> = new Map();
  #revision = -1;
  #shown: Shown | null = null;
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
    this.#lines = new Map(drawing.boards.map((board) => [board.name, board.line]));
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
  #best(from: Pick<Eye, "yaw" | "pitch"> = this.#shown?.eye ?? STANDING): Eye {
    const { yaw, pitch } = from;
    const points: Vec[] = [];
    const pose = this.#shown?.pose;
    for (const part of this.#parts) {
      if (pose && !pose.has(part.board)) continue; // not of the unit at hand: it is not drawn either
      const [dx0, dy0, dz0] = this.#awayOf(part.board);
      const [x0, y0, z0] = resting(part, this.#shown);
      const [x, y, z] = [x0 + dx0, y0 + dy0, z0 + dz0];
      const [dx, dy] = reach(part);
      for (const sx of [-1, 1]) for (const sy of [-1, 1]) for (const sz of [-1, 1]) points.push([x + sx * dx, y + sy * dy, z + (sz * part.size[2]) / 2]);
    }
    if (points.length === 0) return flat(sight.view, this.#size);
    const foot = this.#foot();
    const eye = fitting(points, yaw, pitch, { ...this.#size, height: this.#size.height - foot }, Math.min(MARGIN, SMALL * Math.min(this.#size.width, this.#size.height)));
    return moved(this.#shown?.pose ? { ...eye, scale: eye.scale * ROOM } : eye, 0, -foot / 2);
  }

  /** Px at the foot that are not the model's: tools or a legend lie there. */
  #foot(): number {
    const shown = this.#shown;
    if (shown?.pose) return shown.legend ? LEGEND : 0;
    return this.#size.width < NARROW || shown?.legend ? TOOLS : 0;
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

  show(shown: Shown | null, looked: Looked): void {
    const [pose, before] = [shown?.pose, this.#shown?.pose];
    const [eye, from] = [shown?.eye ?? STANDING, this.#shown?.eye ?? STANDING];
    const turned = pose !== undefined && (before === undefined || eye.yaw !== from.yaw || eye.pitch !== from.pitch);
    const left = pose === undefined && before !== undefined;
    const other = pose !== undefined && before !== undefined && (pose.size !== before.size || [...pose.keys()].some((board) => !before.has(board)));
    const spread = pose === undefined && looked.apart !== this.#looked.apart;
    const foot = this.#foot();
    this.#shown = shown;
    this.#looked = looked;
    this.#setStates();
    if (this.#up && (turned || left || other)) this.#go(this.eye, this.#best());
    else if (this.#up && foot !== this.#foot()) this.#go(this.eye, this.#best(this.eye));
    else if (this.#up && spread) this.look(this.#best(this.eye));
    this.#tell();
  }

  /** Where a place of a part, which is given as in the piece, is drawn: posed, or with the piece drawn apart. */
  placed(board: string, at: Vec): Vec {
    const pose = this.#shown?.pose?.get(board);
    const [x, y, z] = pose ? placed(pose, at) : at;
    const [dx, dy, dz] = this.#awayOf(board);
    return [x + dx, y + dy, z + dz];
  }

  lookOf(board: string): Look | undefined {
    return this.#shown?.boards.get(board);
  }

  /** How far a part is from its place when the piece is drawn apart. */
  #awayOf(board: string): Vec {
    const { apart } = this.#looked;
    const far = this.#shown?.pose === undefined && apart > 0 ? this.#ways.get(board) : undefined;
    return far ? [far[0] * apart, far[1] * apart, far[2] * apart] : [0, 0, 0];
  }

  #setStates(): void {
    const pose = this.#shown?.pose;
    const { apart, alone, steps } = this.#looked;
    this.#ways = apart > 0 ? apartOf(this.#parts, steps) : new Map();
    const whole = this.#shown?.bend === undefined && ![...(this.#shown?.boards.values() ?? [])].some((look) => look.faint);
    this.#scene.showWall(pose === undefined, apart === 0 && !alone && whole);
    this.#scene.setStates(stateOf(this.#shown, this.#looked, (board) => this.#awayOf(board), this.#lines));
  }

  cutOpen(section: { axis: Axis; share: number } | null, extent: readonly [number, number, number, number]): void {
    this.#tell(); // names stand on what is seen
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

  /** The sheet as far as names may stand on it, px. */
  get room(): Rect {
    return { left: 2, top: 2, right: this.#size.width - 2, bottom: this.#size.height - 2 };
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
