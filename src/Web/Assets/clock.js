// The instant of the workshop's computer. It is estimated from its answers and then read off the device's own clock: a page that
// slept or was slowed down in the background shows the right time again at once, because nothing is counted.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.clock = (() => {
    const where = "coldpeel/clock";
    // A page that opens without the network goes on by the last estimate.
    let offset = before();
    let known = false;
    // Between these two a device's clock was set anew, or the device slept: ask again.
    let wall = Date.now() - performance.now();

    function before() {
        try {
            return Number(localStorage.getItem(where) ?? 0) || 0;
        } catch {
            return 0;
        }
    }

    async function ask() {
        let best = Infinity;
        let found = 0;
        for (let i = 0; i < 4; i++) {
            const sent = Date.now();
            const answer = await fetch("/bench/clock", { cache: "no-store" });
            const { nowMs } = await answer.json();
            const half = (Date.now() - sent) / 2;
            // The quickest answer is the least wrong: at most by half of its way.
            if (half < best) {
                best = half;
                found = nowMs - (sent + half);
            }
        }
        offset = found;
        known = true;
        try {
            localStorage.setItem(where, String(offset));
        } catch {
            // A private window keeps nothing.
        }
        wall = Date.now() - performance.now();
    }

    function now() {
        return Date.now() + offset;
    }

    function jumped() {
        return Math.abs(Date.now() - performance.now() - wall) > 250;
    }

    async function keep() {
        try {
            await ask();
        } catch {
            // Without the network the last estimate holds.
        }
    }

    addEventListener("online", keep);
    document.addEventListener("visibilitychange", () => document.hidden || keep());
    setInterval(() => (jumped() ? keep() : undefined), 1000);
    setInterval(keep, 60000);
    return { ask, now, keep, isKnown: () => known };
})();
