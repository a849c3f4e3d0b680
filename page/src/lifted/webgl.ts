/** Whether this browser draws models, and what is said where it does not. */

let known: boolean | undefined;

export function drawsModels(): boolean {
  return (known ??= asked());
}

/** Of a canvas of the page: some browsers leave WebGL on for canvases that are off the page and refuse it here. */
function asked(): boolean {
  const context = document.createElement("canvas").getContext("webgl2");
  context?.getExtension("WEBGL_lose_context")?.loseContext(); // a browser keeps few of them at once
  return context !== null;
}

export const NO_MODELS = {
  says: "this browser draws no models: its WebGL is off or missing",
  remedy: "turn it on in the browser's settings or take another browser; drawing, lists and papers need none",
} as const;
