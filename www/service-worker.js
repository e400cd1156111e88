// Keeps one version of the page on the device, whole: it is taken in completely and checked against these sums before
// it can answer, and the version before it answers until then.
"use strict";

// Name, type and SHA-256 of each file; the version is the sum of it all and of this script.
const VERSION = "{{version}}";
const FILES = {{files}};
// Pages of other folders on the same host keep theirs.
const FOLDER = self.registration.scope;
const PREFIX = `rigging-loads ${FOLDER} `;
const KEPT = PREFIX + VERSION;

const hex = (bytes) => Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, "0")).join("");

async function take({ name, type, sum }) {
  const response = await fetch(FOLDER + name, { cache: "no-store" });
  const bytes = await response.arrayBuffer();
  if (!response.ok || hex(await crypto.subtle.digest("SHA-256", bytes)) !== sum) {
    throw new Error(`${name} is not that of version ${VERSION}`);
  }
  const cache = await caches.open(KEPT);
  await cache.put(FOLDER + name, new Response(bytes, { headers: { "Content-Type": type } }));
}

async function takeAll() {
  try {
    await Promise.all(FILES.map(take));
  } catch (error) {
    await caches.delete(KEPT);
    throw error;
  }
}

async function forgetOthers() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== KEPT).map((name) => caches.delete(name)));
}

async function answer(request, name) {
  const cache = await caches.open(KEPT);
  return (await cache.match(FOLDER + name)) ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(takeAll()));
self.addEventListener("activate", (event) => event.waitUntil(forgetOthers()));
// Only the page's own button makes a new version take over while pages of the old one are open.
self.addEventListener("message", (event) => event.data === "use" && self.skipWaiting());
self.addEventListener("fetch", (event) => {
  const [address] = event.request.url.split(/[?#]/);
  const name = address === FOLDER ? "index.html" : address.replace(FOLDER, "");
  if (event.request.method === "GET" && FILES.some((file) => file.name === name)) {
    event.respondWith(answer(event.request, name));
  }
});
