/** The model as a picture: parts with their edges, the wall behind, and what is under the pointer. */
import { Matrix4, Mesh as Body, OrthographicCamera, Plane, Raycaster, Scene as Three, Vector2, Vector3, WebGLRenderer } from "three";
import { Background } from "./background";
import { Drawn, type PartState } from "./drawn";
import { axes, type Eye, type Size } from "./eye";
import { Smoothed } from "./copy";
import { Lines, partsDrawn } from "./lines";
import { QuickLines } from "./quick";
import { PLAIN } from "./wood";
import type { PartModel } from "./model";
import { palette, type Palette } from "./palette";
import type { Vec } from "./edges";

const FAR = 1e5;
const SLOW = 30; // ms a frame
const COARSE = 0.6;
const REST = 120; // ms without a move, after which the picture is drawn in full

export interface Hit {
  readonly board: string;
  /** Key of the cut, "" for the board's own surface. */
  readonly cut: string;
  readonly at: Vec;
  readonly normal: Vec;
}

export class Scene {
  readonly #renderer: WebGLRenderer;
  readonly #three = new Three();
  readonly #camera = new OrthographicCamera(-1, 1, 1, -1, 0, 2 * FAR);
  readonly #lines: Lines;
  readonly #quick = new QuickLines();
  readonly #smoothed = new Smoothed();
  readonly #background = new Background();
  readonly #parts = new Map<string, Drawn>();
  #palette: Palette = palette();
  #size: Size = { width: 1, height: 1 };
  #eye: Eye = { yaw: 0, pitch: 0, scale: 1, middle: [0, 0, 0] };
  #frame = 0;
  #timer = 0;
  #moved = 0;
  #painted = 0;
  #pace = 0;

  constructor(canvas: HTMLCanvasElement) {
    this.#renderer = new WebGLRenderer({ canvas, antialias: false, alpha: true });
    this.#renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    this.#renderer.setClearColor(0, 0);
    this.#lines = new Lines();
    this.#three.add(this.#background.group, this.#lines.group, this.#quick.group);
  }

  setSize(size: Size): void {
    this.#size = size;
    this.#renderer.setSize(size.width, size.height, false);
    this.#lines.setSize(size);
    this.look(this.#eye);
  }

  setParts(parts: readonly PartModel[]): void {
    const wanted = new Set(parts.map((part) => part.board));
    for (const [name, drawn] of this.#parts) {
      if (wanted.has(name)) continue;
      this.#three.remove(drawn.body);
      drawn.dispose();
      this.#parts.delete(name);
    }
    for (const part of parts) {
      const known = this.#parts.get(part.board);
      if (known?.model.key === part.key) {
        known.place(part);
        continue;
      }
      if (known) {
        this.#three.remove(known.body);
        known.dispose();
      }
      const drawn = new Drawn(part, this.#palette);
      this.#parts.set(part.board, drawn);
      this.#three.add(drawn.body);
    }
    this.refresh();
  }

  setWall(extent: readonly [number, number, number, number], studs: readonly number[], depth: number): void {
    this.#background.set(extent, studs, depth, this.#palette, [...this.#parts.values()].map((part) => part.model));
    this.refresh();
  }

  /** The wall stands behind the piece where it stands; shadows fall on it where all parts are home. */
  showWall(on: boolean, shadows: boolean): void {
    this.#background.group.visible = on;
    this.#background.shadows.visible = shadows;
  }

  setStates(stateOf: (board: string) => PartState): void {
    for (const [name, drawn] of this.#parts) drawn.setState(stateOf(name), this.#palette);
    this.refresh();
  }

  repaint(): void {
    this.#palette = palette();
    for (const drawn of this.#parts.values()) drawn.repaint(this.#palette);
    this.#background.repaint(this.#palette);
    this.refresh();
  }

  /** Cut everything off on the far side of a plane: `normal` points to what stays. */
  setSection(plane: { readonly normal: Vec; readonly at: number } | null): void {
    this.#renderer.clippingPlanes = plane ? [new Plane(new Vector3(...plane.normal), -plane.at)] : [];
    this.refresh();
  }

  look(eye: Eye): void {
    this.#moved = performance.now();
    this.#eye = eye;
    const [wide, high] = [this.#size.width / eye.scale / 2, this.#size.height / eye.scale / 2];
    const { right, up, toEye } = axes(eye);
    this.#camera.left = -wide;
    this.#camera.right = wide;
    this.#camera.top = high;
    this.#camera.bottom = -high;
    const middle = new Vector3(...eye.middle);
    const turn = new Matrix4().makeBasis(new Vector3(...right), new Vector3(...up), new Vector3(...toEye));
    this.#camera.position.copy(middle).addScaledVector(new Vector3(...toEye), FAR / 10);
    this.#camera.quaternion.setFromRotationMatrix(turn);
    this.#camera.near = 0;
    this.#camera.far = FAR / 5;
    this.#camera.updateProjectionMatrix();
    this.#camera.updateMatrixWorld();
    this.refresh();
  }

  /** Paint once, at the next frame, however often it is asked for. */
  refresh(): void {
    if (this.#frame !== 0) return;
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0;
      this.#paint();
    });
  }

  /** Quick while the eye moves; in full as soon as it rests. */
  #paint(): void {
    const parts = [...this.#parts.values()];
    const moving = performance.now() - this.#moved < REST;
    this.#lines.group.visible = !moving;
    this.#quick.group.visible = moving;
    PLAIN.value = moving ? 1 : 0;
    this.#sharpness(moving);
    if (moving) {
      this.#quick.set(parts, partsDrawn(parts, this.#palette), this.#palette);
      this.#renderer.render(this.#three, this.#camera);
      clearTimeout(this.#timer);
      this.#timer = window.setTimeout(() => this.refresh(), REST + 20);
    } else {
      this.#lines.set(parts, axes(this.#eye).toEye, this.#palette);
      this.#smoothed.render(this.#renderer, this.#three, this.#camera);
    }
  }

  /** On a machine that cannot keep up, the picture is coarser while it is turned, and sharp as soon as it rests. */
  #sharpness(moving: boolean): void {
    const now = performance.now();
    const took = now - this.#painted;
    this.#painted = now;
    if (moving && took < REST) this.#pace = this.#pace * 0.8 + took * 0.2;
    const ratio = Math.min(2, devicePixelRatio) * (moving && this.#pace > SLOW ? COARSE : 1);
    if (this.#renderer.getPixelRatio() !== ratio) this.#renderer.setPixelRatio(ratio);
  }

  hit(x: number, y: number): Hit | null {
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((x / this.#size.width) * 2 - 1, 1 - (y / this.#size.height) * 2), this.#camera);
    const bodies = [...this.#parts.values()].filter((part) => part.body.visible).map((part) => part.body);
    const planes: Plane[] = this.#renderer.clippingPlanes;
    const seen = ray.intersectObjects(bodies, false).find((met) => planes.every((plane) => plane.distanceToPoint(met.point) >= 0));
    if (!seen || !(seen.object instanceof Body)) return null;
    const drawn = this.#parts.get(seen.object.name);
    if (!drawn || seen.faceIndex == null || !seen.face) return null;
    const normal = seen.face.normal.clone().transformDirection(seen.object.matrixWorld);
    return { board: drawn.model.board, cut: drawn.cutAt(seen.faceIndex), at: [seen.point.x, seen.point.y, seen.point.z], normal: [normal.x, normal.y, normal.z] };
  }

  dispose(): void {
    cancelAnimationFrame(this.#frame);
    clearTimeout(this.#timer);
    this.#quick.dispose();
    this.#smoothed.dispose();
    for (const drawn of this.#parts.values()) drawn.dispose();
    this.#lines.dispose();
    this.#background.dispose();
    this.#renderer.dispose();
  }
}
