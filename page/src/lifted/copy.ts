/** A picture drawn with smoothed edges beside the screen, and laid onto it: the screen's own buffer has none. */
import { Camera, Mesh, NoBlending, OrthographicCamera, PlaneGeometry, Scene, ShaderMaterial, SRGBColorSpace, Vector2, WebGLRenderTarget, type WebGLRenderer } from "three";

const SAMPLES = 4;

export class Smoothed {
  readonly #target = new WebGLRenderTarget(1, 1, { samples: SAMPLES, colorSpace: SRGBColorSpace });
  readonly #scene = new Scene();
  readonly #camera = new OrthographicCamera(-1, 1, 1, -1, 0, 1);
  readonly #sheet: Mesh<PlaneGeometry, ShaderMaterial>;

  constructor() {
    const material = new ShaderMaterial({
      uniforms: { picture: { value: this.#target.texture } },
      vertexShader: "varying vec2 at; void main() { at = uv; gl_Position = vec4(position.xy, 0.0, 1.0); }",
      fragmentShader: "uniform sampler2D picture; varying vec2 at; void main() { gl_FragColor = texture2D(picture, at);\n#include <colorspace_fragment>\n}",
      blending: NoBlending, depthTest: false, depthWrite: false,
    });
    this.#sheet = new Mesh(new PlaneGeometry(2, 2), material);
    this.#sheet.frustumCulled = false;
    this.#scene.add(this.#sheet);
  }

  render(renderer: WebGLRenderer, scene: Scene, camera: Camera): void {
    const size = renderer.getDrawingBufferSize(new Vector2());
    if (this.#target.width !== size.x || this.#target.height !== size.y) this.#target.setSize(size.x, size.y);
    renderer.setRenderTarget(this.#target);
    renderer.clear();
    renderer.render(scene, camera);
    renderer.setRenderTarget(null);
    const { clippingPlanes } = renderer;
    renderer.clippingPlanes = [];
    renderer.render(this.#scene, this.#camera);
    renderer.clippingPlanes = clippingPlanes;
  }

  dispose(): void {
    this.#target.dispose();
    this.#sheet.geometry.dispose();
    this.#sheet.material.dispose();
  }
}
