/** The model as a picture: parts with their edges, the wall behind, and what is under the pointer. */
import { Group, Matrix4, Mesh as Body, OrthographicCamera, Plane, Raycaster, Scene as Three, Vector2, Vector3, WebGLRenderer } from "three";
import { Background } from "./background";
import { Drawn, homeOf, type PartState } from "./drawn";
import { axes, type Eye, type Size } from "./eye";
import { Smoothed } from "./copy";
import { Lines, partsDrawn } from "./lines";
import { Quick } from "./quick";
import type { PartModel } from "./model";
import { palette, type Palette } from "./palette";
import type { Vec } from "../core/shown";

const FAR = 1e5;
const SLOW = 30; // ms a frame
const COARSE = 0.6;
const REST = 120; // ms without a move, after which the picture is drawn in full
const LONGEST = 400; // ms: what is longer apart is no frame but a rest

export interface Hit {
  readonly board: string;
  /** Key of the cut, "" for the board's own surface. */
  readonly cut: string;
  readonly at: Vec;
  readonly normal: Vec;
  /** The same where the part belongs, however it is posed or drawn apart; null of one that is drawn bent. */
  readonly home: { readonly at: Vec; readonly normal: Vec } | null;
}

const vec = ({ x, y, z }: Vector3): Vec => [x, y, z];

export class Scene {
  readonly #renderer: WebGLRenderer;
  readonly #three = new Three();
  readonly #camera = new OrthographicCamera(-1, 1, 1, -1, 0, 2 * FAR);
  readonly #lines: Lines;
  readonly #quick = new Quick();
  readonly #bodies = new Group();
  readonly #smoothed = new Smoothed();
  readonly #background = new Background();
  readonly #parts = new Map<string, Drawn>();
  #palette: Palette = palette();
  #size: Size = { width: 1, height: 1 };
  #eye: Eye = { yaw: 0, pitch: 0, scale: 1, middle: [0, 0, 0] };
  #frame = 0;
  #timer = 0;
  /** Eye or parts have moved, and have not rested since. */
  #moving = false;
  #painted = 0;
  #pace = 0;
  #coarse = false;

  constructor(canvas: HTMLCanvasElement) {
    this.#renderer = new WebGLRenderer({ canvas, antialias: false, alpha: false }); // opaque: nothing under it is drawn
    this.#renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    this.#renderer.setClearColor(this.#palette.sheet);
    this.#lines = new Lines();
    this.#three.add(this.#background.group, this.#bodies, this.#lines.group, this.#quick.group);
  }

  setSize(size: Size): void {
    this.#size = size;
    this.#renderer.setSize(size.width, size.height, false);
    this.#lines.setSize(size);
    this.look(this.#eye);
    this.#paint(); // at once: the buffer is empty now
  }

  setParts(parts: readonly PartModel[]): void {
    const wanted = new Set(parts.map((part) => part.board));
    for (const [name, drawn] of this.#parts) {
      if (wanted.has(name)) continue;
      this.#bodies.remove(drawn.body);
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
        this.#bodies.remove(known.body);
        known.dispose();
      }
      const drawn = new Drawn(part, this.#palette);
      this.#parts.set(part.board, drawn);
      this.#bodies.add(drawn.body);
    }
    this.refresh();
  }

  setWall(extent: readonly [number, number, number, number], studs: readonly number[], depth: number): void {
    this.#background.set(extent, studs, depth, this.#palette, [...this.#parts.values()].map((part) => part.model));
    this.refresh();
  }

  /** The wall stands behind the piece where it stands; shadows fall on it where all parts are home. */
  showWall(on: boolean, shadows: boolean): void {
    const { group, shadows: fallen } = this.#background;
    if (group.visible === on && fallen.visible === shadows) return;
    group.visible = on;
    fallen.visible = shadows;
    this.refresh();
  }

  setStates(stateOf: (board: string) => PartState): void {
    const come = new Set([...this.#parts].map(([name, drawn]) => drawn.setState(stateOf(name), this.#palette)));
    if (come.has("moved")) this.#moving = true;
    if (come.has("moved") || come.has("changed")) this.refresh();
  }

  repaint(): void {
    this.#palette = palette();
    this.#renderer.setClearColor(this.#palette.sheet);
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
    this.#moving = true;
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

  /** Quick while eye or parts move; in full as soon as they rest. */
  #paint(): void {
    const parts = [...this.#parts.values()];
    const moving = this.#moving;
    this.#bodies.visible = !moving;
    this.#lines.group.visible = !moving;
    this.#quick.group.visible = moving;
    this.#sharpness(moving);
    clearTimeout(this.#timer);
    if (moving) {
      this.#quick.set(parts, partsDrawn(parts, this.#palette), this.#palette, this.#renderer.clippingPlanes.length > 0);
      this.#renderer.render(this.#three, this.#camera);
      this.#timer = window.setTimeout(() => this.#rest(), REST);
    } else {
      this.#lines.set(parts, axes(this.#eye).toEye, this.#palette);
      this.#smoothed.render(this.#renderer, this.#three, this.#camera);
    }
  }

  #rest(): void {
    this.#moving = false;
    this.refresh();
  }

  /**
   * On a machine that cannot keep up, the picture is coarser while it is turned, and sharp as soon as it rests.
   *
   * Once coarse it stays so until it is drawn so quickly that it would be quick enough in full: it must not go to and fro.
   */
  #sharpness(moving: boolean): void {
    const now = performance.now();
    const took = now - this.#painted;
    this.#painted = now;
    if (moving && took < LONGEST) this.#pace = this.#pace * 0.8 + took * 0.2;
    this.#coarse = this.#pace > (this.#coarse ? SLOW * COARSE * COARSE : SLOW);
    const ratio = Math.min(2, devicePixelRatio) * (moving && this.#coarse ? COARSE : 1);
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
    const face = { at: vec(seen.point), normal: vec(normal) };
    return { board: drawn.model.board, cut: drawn.cutAt(seen.faceIndex), ...face, home: drawn.state.bend ? null : homeOf(face, drawn.state.pose, drawn.state.away) };
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
