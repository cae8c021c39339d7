// Hears of the taps of all screens, asks for the day where its tasks became others, and keeps on this device what opens it again
// without the network.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.news = (() => {
    const { here } = coldpeel;
    const root = document.getElementById("bench");
    const dayAddress = `/bench/${here.dayId}/day`;
    let keeping = false;

    // A device that was thrown out forgets what it kept, and stands at the door.
    async function leave() {
        await coldpeel.kept.forget().catch(() => {});
        location.reload();
    }

    function add(event) {
        if (!here.day.events.some((e) => e.number === event.number)) {
            here.day.events.push(event);
            here.day.events.sort((a, b) => a.number - b.number);
        }
    }

    async function fetchDay() {
        const answer = await fetch(`/bench/${here.dayId}/day`, { cache: "no-store", signal: AbortSignal.timeout(8000) });
        if (coldpeel.kept.isNo(answer)) {
            await leave();
        }
        if (!answer.ok) {
            throw new Error(String(answer.status));
        }
        here.day = await answer.json();
        // Whoever has just answered is there: a screen that opens does not say otherwise while it still asks for the clock.
        here.linked = true;
        here.refold();
        keepDay();
    }

    // The tasks themselves become others: they are asked for.
    const changesTasks = (e) => e.saying === "again" || e.saying === "taken-back" || coldpeel.taps.plansAgain(e);

    function keepDay() {
        if (keeping && here.day !== null) {
            const said = new Response(JSON.stringify(here.day), { headers: { "Content-Type": "application/json" } });
            coldpeel.kept.put(dayAddress, said).catch(() => {});
        }
    }

    // Only where the browser lets a page answer for itself: over HTTPS that it trusts, or on the workshop's own computer.
    async function keepPage() {
        try {
            if (!coldpeel.kept.can() || navigator.serviceWorker === undefined) {
                return;
            }
            await navigator.serviceWorker.register("/bench/worker.js");
            keeping = true;
            keepDay();
            await coldpeel.kept.tidy();
            const parts = performance.getEntriesByType("resource").map((r) => new URL(r.name)).filter((u) => u.pathname.startsWith("/assets/"));
            const pictures = here.day.cards.filter((c) => c.picture).map(coldpeel.parts.pictureOf);
            for (const address of new Set([location.pathname, ...parts.map((u) => u.pathname + u.search), ...pictures])) {
                await coldpeel.kept.fetchAndPut(address);
            }
            root.dataset.kept = "yes";
        } catch {
            // A browser that keeps nothing is as it was before: the page goes on for as long as it is open.
        }
    }

    async function readKept() {
        const found = await coldpeel.kept.read(dayAddress).catch(() => undefined);
        if (found !== undefined && here.day === null) {
            keeping = true;
            here.day = await found.json();
            here.refold();
        }
    }

    function listen() {
        const source = new EventSource(`/bench/${here.dayId}/news?after=${here.day.events.at(-1)?.number ?? 0}`);
        source.onmessage = async (message) => {
            here.heard = Date.now();
            here.linked = true;
            const news = JSON.parse(message.data);
            // A backup was brought back: nothing that was heard here holds any more.
            if (here.day.broughtBack !== undefined && news.broughtBack !== here.day.broughtBack) {
                source.close();
                await coldpeel.kept.forget().catch(() => {});
                location.reload();
                return;
            }
            const fresh = news.events.filter((n) => !here.day.events.some((e) => e.number === n.number));
            here.day.closed = news.closed;
            fresh.forEach(add);
            if (fresh.some(changesTasks)) {
                await fetchDay().catch(() => {});
            }
            here.refold();
            if (fresh.length > 0) {
                keepDay();
            }
            coldpeel.draw();
            coldpeel.taps.send();
        };
        source.onerror = () => {
            here.linked = false;
            coldpeel.draw();
            if (source.readyState === EventSource.CLOSED) {
                // Asking for the day tells whether this device may still be here.
                setTimeout(() => fetchDay().catch(() => {}).then(listen), 2000);
            }
        };
    }

    return { add, changesTasks, fetchDay, keepDay, keepPage, readKept, listen, leave };
})();
