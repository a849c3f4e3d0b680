/**
 * The model while it is turned by hand: all parts as one body of flat tones, all edges as lines of one px.
 *
 * A tone hangs on where a face looks in the room, not on the eye, so all of it is worked out before the turning, again
 * only where parts have moved, and no frame waits for it: one call to draw, faces turned away left out, no grain, no
 * sum a pixel. At rest the parts are drawn in full.
 */
import { BufferAttribute, BufferGeometry, Color, DoubleSide, FrontSide, Group, LineBasicMaterial, LineDashedMaterial, LineSegments, Mesh, ShaderMaterial, SRGBColorSpace, Vector3 } from "three";
import type { Drawn } from "./drawn";
import type { Palette } from "./palette";
import type { Tones } from "./wood";

type Kind = "ink" | "blue" | "toCome";

const VERTEX = /* glsl */ `
  #include <clipping_planes_pars_vertex>
  attribute vec3 tone;
  varying vec3 seen;
  void main() {
    seen = tone;
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    gl_Position = projectionMatrix * mvPosition;
    #include <clipping_planes_vertex>
  }
`;

/** Tones come as they stand on the screen. Where the model is cut open its inside is seen. */
const FRAGMENT = /* glsl */ `
  #include <clipping_planes_pars_fragment>
  varying vec3 seen;
  uniform vec3 section;
  void main() {
    #include <clipping_planes_fragment>
    #if NUM_CLIPPING_PLANES > 0
      gl_FragColor = vec4(gl_FrontFacing ? seen : section, 1.0);
    #else
      gl_FragColor = vec4(seen, 1.0);
    #endif
  }
`;

export class Quick {
  readonly group = new Group();
  readonly #wood = new ShaderMaterial({
    vertexShader: VERTEX, fragmentShader: FRAGMENT, uniforms: { section: { value: new Vector3() } }, clipping: true,
    polygonOffset: true, polygonOffsetFactor: 1.1, polygonOffsetUnits: 2,
  });
  readonly #pens = { ink: new LineBasicMaterial(), blue: new LineBasicMaterial(), toCome: new LineDashedMaterial({ dashSize: 22, gapSize: 15 }) };
  #drawn = "";

  /**
   * Nothing is done where no part has changed.
   *
   * @param drawn all that the picture depends on, as one word.
   * @param open whether the model is cut open, so that faces turned away are seen.
   */
  set(parts: readonly Drawn[], drawn: string, palette: Palette, open: boolean): void {
    this.#wood.side = open ? DoubleSide : FrontSide;
    if (drawn === this.#drawn) return;
    this.#drawn = drawn;
    this.#clear();
    this.#wood.uniforms["section"]?.value.set(...onScreen(palette.wood.section));
    this.#addFaces(parts.filter((part) => part.state.look === "solid"), palette);
    this.#addLines(parts, palette);
  }

  #addFaces(parts: readonly Drawn[], palette: Palette): void {
    const count = parts.reduce((sum, part) => sum + part.body.geometry.getAttribute("position").count, 0);
    const [positions, tones] = [new Float32Array(count * 3), new Uint8Array(count * 3)];
    let at = 0;
    for (const part of parts) at = copied(part, part.tones(palette), positions, tones, at);
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(positions, 3));
    geometry.setAttribute("tone", new BufferAttribute(tones, 3, true));
    const body = new Mesh(geometry, this.#wood);
    body.frustumCulled = false;
    this.group.add(body);
  }

  #addLines(parts: readonly Drawn[], palette: Palette): void {
    const found: Record<Kind, number[]> = { ink: [], blue: [], toCome: [] };
    for (const part of parts) {
      if (part.state.look === "hidden") continue;
      const kind: Kind = part.state.look === "to come" ? "toCome" : part.state.chosen ? "blue" : "ink";
      for (const edge of part.edges) if (!edge.smooth) found[kind].push(...edge.from, ...edge.to);
    }
    this.#pens.ink.color.set(palette.ink);
    this.#pens.blue.color.set(palette.blue);
    this.#pens.toCome.color.set(palette.thin);
    for (const kind of ["ink", "blue", "toCome"] as const) this.#addLine(kind, found[kind]);
  }

  #addLine(kind: Kind, positions: readonly number[]): void {
    if (positions.length === 0) return;
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(new Float32Array(positions), 3));
    const lines = new LineSegments(geometry, this.#pens[kind]);
    if (kind === "toCome") lines.computeLineDistances();
    lines.frustumCulled = false;
    this.group.add(lines);
  }

  #clear(): void {
    for (const child of this.group.children) if (child instanceof LineSegments || child instanceof Mesh) child.geometry.dispose();
    this.group.clear();
  }

  dispose(): void {
    this.#clear();
    this.#wood.dispose();
    for (const pen of Object.values(this.#pens)) pen.dispose();
  }
}

/** A part's corners in the room, and its faces' tones; where the next part's begin. */
function copied(part: Drawn, tones: Tones, positions: Float32Array, colours: Uint8Array, from: number): number {
  const [places, normals] = [part.body.geometry.getAttribute("position"), part.body.geometry.getAttribute("normal")];
  const { matrix } = part.body;
  const [place, facing, paints] = [new Vector3(), new Vector3(), paintsOf(tones)];
  let tone: Paint = [0, 0, 0];
  let at = from;
  for (let index = 0; index < places.count; index += 1, at += 3) {
    if (index % 3 === 0) tone = toneOf(facing.fromBufferAttribute(normals, index).transformDirection(matrix), paints); // once a triangle
    place.fromBufferAttribute(places, index).applyMatrix4(matrix).toArray(positions, at);
    colours.set(tone, at);
  }
  return at;
}

type Paint = readonly [number, number, number];

export function paintsOf(tones: Tones): Record<"front" | "top" | "side" | "under", Color> {
  return { front: new Color(tones.front), top: new Color(tones.top), side: new Color(tones.side), under: new Color(tones.under) };
}

/** The tone of a face as `wood.ts` mixes it, in 256 steps as the screen has them. */
export function toneOf(facing: { readonly x: number; readonly y: number; readonly z: number }, paints: ReturnType<typeof paintsOf>): Paint {
  const mixed = new Color(0, 0, 0);
  const add = (paint: Color, share: number): Color => mixed.add(paint.clone().multiplyScalar(share));
  add(facing.z >= 0 ? paints.front : paints.side, facing.z ** 2);
  add(facing.y >= 0 ? paints.top : paints.under, facing.y ** 2);
  add(paints.side, facing.x ** 2);
  const { r, g, b } = mixed.getRGB({ r: 0, g: 0, b: 0 }, SRGBColorSpace);
  return [Math.round(r * 255), Math.round(g * 255), Math.round(b * 255)];
}

function onScreen(paint: string): Paint {
  const { r, g, b } = new Color(paint).getRGB({ r: 0, g: 0, b: 0 }, SRGBColorSpace);
  return [r, g, b];
}
