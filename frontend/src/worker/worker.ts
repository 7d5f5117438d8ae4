/**
 * The service worker: keeps the files of the page, so that it opens while the server is away.
 *
 * It knows nothing of work, moves or makings; those are the page's. It answers for the page's own files and lets
 * everything else through untouched. Files under assets/ have their content in their name and never change, so they
 * come from whichever version holds them. The page itself comes from the newest version that is here whole: a newer
 * one is taken when the page is next opened, and never under the maker's hands.
 */

interface Kept {
  url: string;
  revision: string | null;
}

/** The little of a worker's world that is used here; the DOM's types know it only by other names. */
interface Later extends Event {
  waitUntil(done: Promise<unknown>): void;
}
interface Asked extends Event {
  readonly request: Request;
  respondWith(answer: Promise<Response>): void;
}
declare const self: {
  readonly __WB_MANIFEST: readonly Kept[];
  readonly registration: { readonly scope: string };
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(event: "install" | "activate", heard: (event: Later) => void): void;
  addEventListener(event: "fetch", heard: (event: Asked) => void): void;
};

const FILES = self.__WB_MANIFEST;
const OURS = "page-";
/** Versions kept: tabs that were opened with an older one may still want a part of it. */
const VERSIONS = 3;
const WHOLE = "./whole";

const scope = new URL(self.registration.scope);
/** Names of the page's versions, the oldest first: a cache is made when its version arrives. */
const versions = async () => (await caches.keys()).filter((name) => name.startsWith(OURS));

/** A short name for this version: the page's files, by name and content. */
function version(): string {
  let sum = 0;
  for (const { url, revision } of FILES) for (const c of `${url} ${revision} `) sum = (Math.imul(sum, 31) + c.charCodeAt(0)) | 0;
  return `${OURS}${(sum >>> 0).toString(16)}`;
}

async function fetchAll(): Promise<void> {
  const name = version();
  // A version that was here before and came back is the newest again.
  if ((await versions()).at(-1) !== name) await caches.delete(name);
  const cache = await caches.open(name);
  await cache.addAll(FILES.map(({ url, revision }) => new Request(url, { cache: revision === null ? "default" : "reload" })));
  await cache.put(WHOLE, new Response(""));
  await self.skipWaiting();
}

async function tidy(): Promise<void> {
  const names = await versions();
  await Promise.all(names.slice(0, -VERSIONS).map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** The page as the newest whole version has it. */
async function newest(path: string): Promise<Response | undefined> {
  for (const name of (await versions()).reverse()) {
    const cache = await caches.open(name);
    const found = (await cache.match(WHOLE)) && (await cache.match(path, { ignoreVary: true }));
    if (found) return found;
  }
  return undefined;
}

async function answer(request: Request, file: string): Promise<Response> {
  const found = file.startsWith("assets/") ? await caches.match(request, { ignoreVary: true }) : await newest(file);
  return found ?? fetch(request);
}

/** Which of our files is asked for; null for what is not ours to answer. */
function fileOf(request: Request): string | null {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== scope.origin || !url.pathname.startsWith(scope.pathname)) return null;
  const file = url.pathname.slice(scope.pathname.length);
  if (file === "") return "index.html";
  return file.startsWith("assets/") || FILES.some(({ url }) => url === file) ? file : null;
}

self.addEventListener("install", (event) => event.waitUntil(fetchAll()));
self.addEventListener("activate", (event) => event.waitUntil(tidy()));
self.addEventListener("fetch", (event) => {
  const file = fileOf(event.request);
  if (file !== null) event.respondWith(answer(event.request, file));
});

export {};
