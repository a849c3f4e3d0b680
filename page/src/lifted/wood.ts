/** Wood as the drawing paints it: one tone a direction, quiet grain along the board, cut faces hatched. */
import { Color, DoubleSide, ShaderMaterial, SRGBColorSpace } from "three";
import { hatchApart } from "../core/shown";

const VERTEX = /* glsl */ `
  #include <clipping_planes_pars_vertex>
  varying vec3 place;
  varying vec3 facing;
  varying vec3 own;
  void main() {
    place = position;
    own = normal;
    facing = normalize(mat3(modelMatrix) * normal);
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    gl_Position = projectionMatrix * mvPosition;
    #include <clipping_planes_vertex>
  }
`;

const FRAGMENT = /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 front;
  uniform vec3 top;
  uniform vec3 side;
  uniform vec3 under;
  uniform vec3 grain;
  uniform vec3 section;
  uniform vec3 hatch;
  uniform vec3 tinting;
  uniform float apart;
  uniform float seed;
  varying vec3 place;
  varying vec3 facing;
  varying vec3 own;
  float chance(vec2 p) { return fract(sin(dot(p, vec2(12.9898, 78.233)) + seed) * 43758.5453); }
  void main() {
    #include <clipping_planes_fragment>
    if (!gl_FrontFacing) {
      float line = mod(gl_FragCoord.x + gl_FragCoord.y, 7.0);
      gl_FragColor = vec4(mix(section, hatch, step(line, 1.0)), 1.0);
      #include <colorspace_fragment>
      return;
    }
    vec3 share = facing * facing;
    vec3 tone = share.z * mix(side, front, step(0.0, facing.z)) + share.y * mix(under, top, step(0.0, facing.y)) + share.x * side;
    vec3 way = abs(own);
    if (way.x < 0.7) {
      float across = way.y > way.z ? place.z : place.y;
      float along = place.x;
      float px = fwidth(across);
      float row = floor(across / 17.0);
      float middle = (row + 0.25 + 0.5 * chance(vec2(row, 3.0))) * 17.0;
      float cell = floor((along + chance(vec2(row, 7.0)) * 300.0) / 130.0);
      float drawn = step(0.42, chance(vec2(row, cell)));
      float line = 1.0 - smoothstep(0.4 * px, 1.1 * px, abs(across - middle));
      tone = mix(tone, grain, line * drawn * 0.95 * (1.0 - smoothstep(4.0, 8.0, px)));
    }
    if (apart > 0.0) tone = mix(tone, tinting, step(mod(gl_FragCoord.x - gl_FragCoord.y, apart), 1.0));
    gl_FragColor = vec4(tone, 1.0);
    #include <colorspace_fragment>
  }
`;

export interface Tones {
  readonly front: string;
  readonly top: string;
  readonly side: string;
  readonly under: string;
  readonly grain: string;
  readonly section: string;
  readonly hatch: string;
  /** Of the lines that hatch a tint. */
  readonly tinting: string;
}

export function woodMaterial(tones: Tones, seed: number): ShaderMaterial {
  const uniforms = {
    front: { value: new Color() }, top: { value: new Color() }, side: { value: new Color() }, under: { value: new Color() },
    grain: { value: new Color() }, section: { value: new Color() }, hatch: { value: new Color() }, tinting: { value: new Color() }, apart: { value: 0 }, seed: { value: seed },
  };
  const material = new ShaderMaterial({
    vertexShader: VERTEX, fragmentShader: FRAGMENT, uniforms, side: DoubleSide, clipping: true,
    polygonOffset: true, polygonOffsetFactor: 1.1, polygonOffsetUnits: 2,
  });
  paint(material, tones, null);
  return material;
}

/** The tones of wood with so much of another colour over it, mixed as the drawing's style sheet mixes them. */
export function tinted(tones: Tones, colour: string, share: number): Tones {
  const over = (tone: string): string => mixed(tone, colour, share);
  return { ...tones, front: over(tones.front), top: over(tones.top), side: over(tones.side), under: over(tones.under) };
}

function mixed(one: string, other: string, share: number): string {
  const [from, to] = [one, other].map((tone) => new Color(tone).getRGB({ r: 0, g: 0, b: 0 }, SRGBColorSpace));
  if (!from || !to) return one;
  const part = Math.max(0, Math.min(1, share));
  const mix = (low: number, high: number): number => low + (high - low) * part;
  return `#${new Color().setRGB(mix(from.r, to.r), mix(from.g, to.g), mix(from.b, to.b), SRGBColorSpace).getHexString()}`;
}

/** @param tint share of a tint that is hatched, null for none. */
export function paint(material: ShaderMaterial, tones: Tones, tint: number | null): void {
  const { apart } = material.uniforms;
  if (apart) apart.value = tint === null ? 0 : hatchApart(tint) * Math.SQRT2 * Math.min(2, devicePixelRatio);
  for (const [name, tone] of Object.entries(tones)) {
    const uniform = material.uniforms[name];
    if (uniform?.value instanceof Color) uniform.value.set(tone);
  }
}
