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
        if (found !== undefined) {
            return found;
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
