// When the workshop's computer does not answer, a page says so in the workshop's language. It looks at nothing else: what is asked for
// goes its way, and only what finds nobody is answered from here. Pages of the bench have a worker of their own.
"use strict";

const store = "coldpeel-gone";

async function answer(request) {
    try {
        return await fetch(request);
    } catch (gone) {
        const open = await caches.open(store);
        if (request.mode !== "navigate") {
            const part = await open.match(request.url);
            if (part !== undefined) {
                return part;
            }
            throw gone;
        }
        const page = (await open.keys()).find((k) => new URL(k.url).pathname === "/gone");
        if (page === undefined) {
            throw gone;
        }
        return open.match(page);
    }
}

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(clients.claim()));
addEventListener("fetch", (event) => {
    const { origin, pathname } = new URL(event.request.url);
    const mine = event.request.mode === "navigate" || pathname.startsWith("/assets/");
    if (event.request.method === "GET" && origin === location.origin && mine) {
        event.respondWith(answer(event.request));
    }
});
