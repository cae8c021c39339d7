// Keeps one page of words on this device: what to say when the workshop's computer does not answer. Nothing of the workshop is in it.
// The bench keeps its own pages; this is for all the others.
"use strict";

(async () => {
    const store = "coldpeel-gone";
    const root = document.documentElement;
    const style = document.querySelector("link[rel=stylesheet]").href;
    try {
        // Browsers have it over HTTPS they trust, and on the workshop's own computer.
        if (globalThis.caches === undefined || navigator.serviceWorker === undefined) {
            return;
        }
        const open = await caches.open(store);
        const page = `${location.origin}/gone?${root.lang}`;
        const there = (await open.keys()).map((k) => k.url);
        if (!there.includes(page) || !there.includes(style)) {
            const icon = document.querySelector("link[rel=icon]").href;
            const answers = await Promise.all([page, style, icon].map((a) => fetch(a, { signal: AbortSignal.timeout(15000) })));
            if (answers.every((a) => a.ok && !a.redirected)) {
                await Promise.all(there.map((url) => open.delete(url)));
                await open.put(page, answers[0]);
                await open.put(style, answers[1]);
                await open.put(icon, answers[2]);
            }
        }
        await navigator.serviceWorker.register("/gone-worker.js");
        await navigator.serviceWorker.ready;
        root.dataset.gone = "kept";
    } catch {
        // A browser that keeps nothing says it in its own words.
    }
})();
