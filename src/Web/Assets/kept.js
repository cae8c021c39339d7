// What a device keeps of the bench, so that a page that is closed opens again without the network: the page, its scripts, the pictures
// and the day, in the browser's own store. Nothing of it is shown when it is older than a day, and a device that is not let in any
// more forgets all of it. The page and worker.js both use this.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.kept = (() => {
    const store = "coldpeel-bench";
    const longestMs = 24 * 3600 * 1000;
    const stamp = "x-kept-at";

    // Browsers have it over HTTPS they trust, and on the workshop's own computer.
    const can = () => globalThis.caches !== undefined;

    async function put(address, answer) {
        const headers = new Headers(answer.headers);
        headers.set(stamp, String(Date.now()));
        const content = await answer.blob();
        await (await caches.open(store)).put(address, new Response(content, { status: 200, headers }));
    }

    /** Keeps what is asked for at that address; what cannot be had now is left as it was. */
    async function fetchAndPut(address) {
        const answer = await fetch(address, { signal: AbortSignal.timeout(15000) });
        if (answer.ok && !answer.redirected) {
            await put(address, answer);
        }
    }

    /** What is kept of an address; undefined when nothing is, or when it is older than a day. */
    async function read(address) {
        if (!can()) {
            return undefined;
        }
        const open = await caches.open(store);
        const found = await open.match(address, { ignoreVary: true });
        const age = Date.now() - Number(found?.headers.get(stamp) ?? 0);
        if (found !== undefined && (age < 0 || age > longestMs)) {
            await open.delete(address, { ignoreVary: true });
            return undefined;
        }
        return found;
    }

    /** Takes out all that is older than a day. */
    async function tidy() {
        const open = await caches.open(store);
        for (const { url } of await open.keys()) {
            await read(url);
        }
    }

    /** Whether an answer says that this device may not be here: shut out by word, or led to the door. */
    function isNo(answer) {
        return (
            answer.status === 401 ||
            answer.status === 403 ||
            answer.type === "opaqueredirect" ||
            (answer.redirected && new URL(answer.url).pathname === "/join")
        );
    }

    async function forget() {
        for (const key of Object.keys(globalThis.localStorage ?? {})) {
            if (key.startsWith("coldpeel/")) {
                localStorage.removeItem(key);
            }
        }
        if (can()) {
            await caches.delete(store);
            await caches.delete("coldpeel-gone");
        }
        // A worker can end itself only; a page at the door ends them all.
        const here = globalThis.registration;
        const workers = here !== undefined ? [here] : ((await globalThis.navigator?.serviceWorker?.getRegistrations()) ?? []);
        for (const worker of workers) {
            await worker.unregister();
        }
    }

    return { can, put, fetchAndPut, read, tidy, isNo, forget };
})();
