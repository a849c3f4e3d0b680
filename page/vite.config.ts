import { svelte } from "@sveltejs/vite-plugin-svelte";
import { readFileSync } from "node:fs";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";

const OTHERS = [
  "three", "svelte", "@codemirror/commands", "@codemirror/language", "@codemirror/state", "@codemirror/view", "@lezer/common", "@lezer/highlight",
  "style-mod", "w3c-keyname", "crelt", "@fontsource/barlow", "@fontsource/spline-sans-mono",
];

/** What others have made goes out with its licence. */
function licences(): Plugin {
  return {
    name: "licences",
    apply: "build",
    generateBundle() {
      const texts = OTHERS.map((name) => `${name}\n\n${readFileSync(licenceOf(name), "utf8").trim()}\n`);
      this.emitFile({ type: "asset", fileName: "licences.txt", source: texts.join(`\n${"-".repeat(80)}\n\n`) });
    },
  };
}

function licenceOf(name: string): URL {
  const folder = new URL(`./node_modules/${name}/`, import.meta.url);
  return new URL(name === "svelte" ? "LICENSE.md" : "LICENSE", folder);
}

export default defineConfig(({ mode }) => ({
  plugins: [svelte(), licences()],
  base: "./",
  build: {
    target: "es2022",
    outDir: "../src/dryfit/web/static",
    emptyOutDir: true,
    assetsInlineLimit: 0, // the content policy allows no data: addresses for fonts
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 900, // three.js, fetched when the drawing is first lifted
  },
  resolve: mode === "test" ? { conditions: ["browser"] } : {},
  test: { include: ["src/**/*.test.ts"] },
}));
