import { VitePWA } from "vite-plugin-pwa";
import { build, type Plugin } from "vite";
import { defineConfig } from "vitest/config";

const icon = (src: string, sizes: string, more = {}) => ({ src: `icons/${src}`, sizes, type: "image/png", ...more });

/** The page speaks over a websocket alone: what the library brings for other ways is not sent to a phone. */
const websocketAlone: Plugin = {
  name: "websocket-alone",
  enforce: "pre",
  transform(_code, id) {
    const part = /engine\.io-client\/build\/esm\/transports\/(.*)\.js$/.exec(id)?.[1] ?? "";
    if (part === "index") return 'import { WS } from "./websocket.node.js";\nexport const transports = { websocket: WS };';
    if (/^(polling|webtransport)/.test(part)) return "export const Polling = 0, Fetch = 0, XHR = 0, BaseXHR = 0, Request = 0, WT = 0;";
    return null;
  },
};

const jsx = { jsx: { runtime: "automatic", importSource: "preact" } } as const;

/** What the command line puts into a sheet of paper: one script that draws charts by itself, and its style. */
const chartsForPaper: Plugin = {
  name: "charts-for-paper",
  apply: "build",
  async writeBundle({ dir }) {
    await build({
      configFile: false,
      logLevel: "warn",
      oxc: jsx,
      build: {
        outDir: `${dir}/paper`,
        target: "es2022",
        copyPublicDir: false,
        lib: { entry: "src/pages/paper/charts.tsx", formats: ["iife"], name: "charts", fileName: () => "charts.js", cssFileName: "charts" },
      },
    });
  },
};

export default defineConfig({
  // Hash routes: every address is the same page, so assets are found beside it wherever it is served.
  base: "./",
  oxc: jsx,
  build: {
    outDir: "dist",
    target: "es2022",
    // The content security policy knows no data: addresses and no inline script.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // Two pages: the whole of it, and the one that a device sees before it is paired.
    rollupOptions: {
      input: { index: "index.html", pair: "pair.html" },
      // Few files squeeze better than many: what nothing can do without, what the shelf needs of a making, the bench.
      output: {
        codeSplitting: {
          groups: [
            { name: "ground", test: /node_modules.@?preact/, priority: 2 },
            { name: "making", test: /preload-helper|src.(follow.device|maker|route|pages.bench.(yarn|late|carried))\.tsx?/, priority: 1 },
            { name: "bench", test: /src.pages.bench.(index|working)\.tsx$/ },
          ],
        },
      },
    },
  },
  plugins: [
    websocketAlone,
    chartsForPaper,
    VitePWA({
      // A worker of our own with a list of the files put in; it is registered by src/worker/page.ts, since the policy
      // knows no inline script either.
      strategies: "injectManifest",
      srcDir: "src/worker",
      filename: "worker.ts",
      injectRegister: false,
      includeManifestIcons: false,
      // The manifest lies behind the door like everything else: it is asked for with the device's cookie.
      useCredentials: true,
      injectManifest: {
        rollupFormat: "iife",
        globPatterns: ["index.html", "assets/*.{js,css,woff2}", "hook.svg", "icons/*.png"],
      },
      manifest: {
        id: "hookside",
        name: "Hookside",
        short_name: "Hookside",
        description: "Reads a crochet pattern, knows where the hook is, says what comes next.",
        start_url: "./",
        scope: "./",
        display: "standalone",
        // Undyed wool, as in look/tokens.css.
        background_color: "#f4eddf",
        theme_color: "#f4eddf",
        icons: [
          icon("icon-192.png", "192x192"),
          icon("icon-512.png", "512x512"),
          icon("mask-512.png", "512x512", { purpose: "maskable" }),
        ],
      },
    }),
  ],
  test: {
    include: ["src/**/*.test.ts", "src/**/*.test.tsx"],
    environment: "node",
    // A loaded machine may take its time: what hangs is found out all the same.
    testTimeout: 30_000,
  },
});
