/**
 * A picture of the started engine's memory, kept on the phone (some 30 MB as it is, a sixth of that packed). It only
 * saves time: a phone without room for it, or without a cache, starts the engine from its files.
 */
const CACHE = "evenbed-engine-memory";

/** Null where there is none under this name, or none can be read. */
export async function loadSnapshot(name: string): Promise<Uint8Array<ArrayBuffer> | null> {
  if (typeof caches === "undefined") return null;
  try {
    const found = await (await caches.open(CACHE)).match(name);
    if (!found?.body) return null;
    const unpacked = found.body.pipeThrough(new DecompressionStream("gzip"));
    return new Uint8Array(await new Response(unpacked).arrayBuffer());
  } catch (error) {
    console.warn("The picture of the engine's memory could not be read.", error);
    return null;
  }
}

async function dropOthers(cache: Cache, name: string): Promise<void> {
  const kept = new URL(name, self.location.href).href;
  for (const request of await cache.keys()) if (request.url !== kept) await cache.delete(request);
}

/** Replaces every earlier picture. Not being able to is no failure. */
export async function saveSnapshot(name: string, memory: Uint8Array<ArrayBuffer>): Promise<void> {
  if (typeof caches === "undefined") return;
  try {
    const packed = new Blob([memory]).stream().pipeThrough(new CompressionStream("gzip"));
    const cache = await caches.open(CACHE);
    await cache.put(name, new Response(packed));
    await dropOthers(cache, name);
  } catch (error) {
    console.warn("The picture of the engine's memory was not kept.", error);
  }
}

export async function dropSnapshots(): Promise<void> {
  await caches.delete(CACHE);
}
