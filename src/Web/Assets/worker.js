// Answers for the bench while the network is gone, out of what the page has kept. With the network it only looks on: an answer that
// shuts the device out makes it forget.
"use strict";

importScripts("/assets/kept.js");

const kept = coldpeel.kept;

// Taps, clocks and news are not answered from memory; all else that the bench's pages ask for is.
function isKept(request) {
    const { origin, pathname } = new URL(request.url);
    return (
        request.method === "GET" &&
        origin === location.origin &&
        !pathname.endsWith("/news") &&
        !pathname.endsWith("/clock") &&
        !pathname.endsWith("/more") &&
        !/\/bench\/\d+\/day$/.test(pathname)
    );
}

// A day that was never open here: what gone.js keeps says at least that nobody answers.
async function saidWhenGone(request) {
    const open = await caches.open("coldpeel-gone");
    const page = (await open.keys()).find((k) => new URL(k.url).pathname === "/gone");
    return request.mode !== "navigate" ? open.match(request.url) : page === undefined ? undefined : open.match(page);
}

async function answer(request) {
    try {
        const got = await fetch(request);
        if (kept.isNo(got)) {
            await kept.forget();
        }
        return got;
    } catch (gone) {
        const { pathname, search } = new URL(request.url);
        const found = await kept.read(pathname + search);
        const said = found ?? (request.mode === "navigate" || pathname.startsWith("/assets/") ? await saidWhenGone(request) : undefined);
        if (said !== undefined) {
            return said;
        }
        throw gone;
    }
}

addEventListener("install", () => skipWaiting());
addEventListener("activate", (event) => event.waitUntil(Promise.all([clients.claim(), kept.tidy()])));
addEventListener("fetch", (event) => {
    if (isKept(event.request)) {
        event.respondWith(answer(event.request));
    }
});
