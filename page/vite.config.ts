import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

export default defineConfig(({ mode }) => ({
  plugins: [svelte()],
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
