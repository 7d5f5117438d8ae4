import { defineConfig } from "vitest/config";

export default defineConfig({
  // Hash routes: every address is the same page, so assets are found beside it wherever it is served.
  base: "./",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "dist",
    target: "es2022",
    // The content security policy knows no data: addresses and no inline script.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  test: {
    include: ["src/**/*.test.ts", "src/**/*.test.tsx"],
    environment: "node",
  },
});
