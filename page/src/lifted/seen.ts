/** The piece in its room as one sees it: wood and nothing else, turned by hand, and given as a picture. */
import { Group, Matrix4, OrthographicCamera, Scene, Vector3, WebGLRenderer } from "three";
import type { Vec } from "../core/shown";
import { Smoothed } from "./copy";
import { Drawn } from "./drawn";
import { axes, fitting, moved, type Eye, type Size } from "./eye";
import { Lines } from "./lines";
import { fetchModel, type PartModel } from "./model";
import { palette, type Palette } from "./palette";
import type { Plug } from "./plugs";
import { Room, type Known } from "./room";
import { Turning } from "./turning";

const FAR = 1e5;
const EYE = { yaw: -24, pitch: 9 } as const;
const AIR = 0.1; // of the smaller side, around the piece
const WIDE = 2400; // px of a picture

export class Seen {
  readonly #renderer: WebGLRenderer;
  readonly #three = new Scene();
  readonly #camera = new OrthographicCamera(-1, 1, 1, -1, 0, 2 * FAR);
  readonly #bodies = new Group();
  readonly #lines = new Lines();
  readonly #room = new Room();
  readonly #smoothed = new Smoothed();
  readonly #turning = new Turning(this);
  readonly #watch: ResizeObserver;
  #palette: Palette = soft();
  #parts: Drawn[] = [];
  #plugs: readonly Plug[] = [];
  #size: Size;
  #eye: Eye = { ...EYE, scale: 0.3, middle: [0, 0, 0] };
  #frame = 0;

  constructor(private readonly canvas: HTMLCanvasElement) {
    this.#renderer = new WebGLRenderer({ canvas, antialias: false, alpha: false });
    this.#size = { width: canvas.clientWidth || 1, height: canvas.clientHeight || 1 };
    this.#three.add(this.#room.group, this.#bodies, this.#lines.group);
    this.#watch = new ResizeObserver(() => {
      this.#size = { width: canvas.clientWidth || 1, height: canvas.clientHeight || 1 };
      this.#fit();
      this.#paint();
    });
    this.#watch.observe(canvas);
  }

  async fetch(revision: number, known: Omit<Known, "piece">): Promise<void> {
    const models = await fetchModel(revision);
    for (const part of this.#parts) part.dispose();
    this.#bodies.clear();
    this.#parts = models.map((model) => new Drawn(model, this.#palette));
    this.#bodies.add(...this.#parts.map((part) => part.body));
    this.#room.set({ ...known, piece: around(models) }, models, this.#palette);
    this.#fit();
    this.plug(this.#plugs);
  }

  /** Close the holes of the plugs that can be seen; they are of the parts that were fetched last. */
  plug(plugs: readonly Plug[]): void {
    this.#plugs = plugs;
    for (const part of this.#parts) part.plug(plugs.filter((one) => one.board === part.model.board));
    this.#paint();
  }

  #fit(): void {
    const points = this.#parts.flatMap(({ model }) => cornersOf(model));
    const air = AIR * Math.min(this.#size.width, this.#size.height);
    if (points.length > 0) this.#eye = fitting(points, this.#eye.yaw, this.#eye.pitch, this.#size, air);
  }

  repaint(): void {
    this.#palette = soft();
    for (const part of this.#parts) part.repaint(this.#palette);
    this.#room.repaint(this.#palette);
    this.refresh();
  }

  refresh(): void {
    if (this.#frame === 0) this.#frame = requestAnimationFrame(() => this.#paint());
  }

  #paint(): void {
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    this.#render(this.#size, Math.min(2, devicePixelRatio));
  }

  #render(size: Size, ratio: number): void {
    const { right, up, toEye } = axes(this.#eye);
    const scale = (this.#eye.scale * size.width) / this.#size.width;
    const [wide, high] = [size.width / scale / 2, size.height / scale / 2];
    Object.assign(this.#camera, { left: -wide, right: wide, top: high, bottom: -high, near: 0, far: FAR / 5 });
    this.#camera.position.set(...this.#eye.middle).addScaledVector(new Vector3(...toEye), FAR / 10);
    this.#camera.quaternion.setFromRotationMatrix(new Matrix4().makeBasis(new Vector3(...right), new Vector3(...up), new Vector3(...toEye)));
    this.#camera.updateProjectionMatrix();
    this.#camera.updateMatrixWorld();
    this.#renderer.setPixelRatio(ratio);
    this.#renderer.setSize(size.width, size.height, false);
    this.#renderer.setClearColor(this.#palette.sheet);
    this.#lines.setSize(size);
    this.#lines.set(this.#parts, toEye, this.#palette);
    this.#smoothed.render(this.#renderer, this.#three, this.#camera);
  }

  /** What is seen now, as a PNG 2400 px wide; null where the browser gives none. */
  picture(): Promise<Blob | null> {
    const { width, height } = this.#size;
    this.#render({ width: WIDE, height: Math.round((WIDE * height) / width) }, 1);
    const made = new Promise<Blob | null>((resolve) => this.canvas.toBlob(resolve, "image/png")); // of what was painted just now
    this.#paint();
    return made;
  }

  hit(): null {
    return null;
  }

  turnBy(yaw: number, pitch: number): void {
    const within = (value: number, most: number): number => Math.max(-most, Math.min(most, value));
    this.#eye = { ...this.#eye, yaw: within(this.#eye.yaw + yaw, 85), pitch: within(this.#eye.pitch + pitch, 60) };
    this.refresh();
  }

  moveBy(dx: number, dy: number): void {
    this.#eye = moved(this.#eye, dx, dy);
    this.refresh();
  }

  growBy(by: number): void {
    this.#eye = { ...this.#eye, scale: Math.max(0.01, Math.min(10, this.#eye.scale * by)) };
    this.refresh();
  }

  key = (event: KeyboardEvent): void => this.#turning.key(event);
  down = (event: PointerEvent): void => this.#turning.down(event);
  move = (event: PointerEvent): void => this.#turning.move(event);
  up = (): void => this.#turning.cancel();
  wheel = (event: WheelEvent): void => this.#turning.wheel(event);

  dispose(): void {
    cancelAnimationFrame(this.#frame);
    this.#watch.disconnect();
    for (const part of this.#parts) part.dispose();
    this.#lines.dispose();
    this.#room.dispose();
    this.#smoothed.dispose();
    this.#renderer.dispose();
  }
}

/** Edges in the wood's own grain instead of ink. */
function soft(): Palette {
  const found = palette();
  return { ...found, ink: found.wood.grain };
}

function cornersOf({ mesh, matrix }: PartModel): Vec[] {
  const turned = new Matrix4().fromArray([...matrix]);
  const points: Vec[] = [];
  const { positions } = mesh;
  for (let at = 0; at < positions.length; at += 3) {
    points.push(new Vector3(positions[at], positions[at + 1], positions[at + 2]).applyMatrix4(turned).toArray());
  }
  return points;
}

function around(parts: readonly PartModel[]): Known["piece"] {
  let [left, foot, right, head, out] = [Infinity, Infinity, -Infinity, -Infinity, 0];
  for (const [x, y, z] of parts.flatMap(cornersOf)) {
    [left, foot, right, head] = [Math.min(left, x), Math.min(foot, y), Math.max(right, x), Math.max(head, y)];
    out = Math.max(out, z);
  }
  return [left, foot, right, head, out];
}
