// The screen at the press. It draws what board.js finds, sends taps, and hears of the others' taps; without the network it goes on
// by itself. Here all of it is drawn, fingers are heard, and it begins.
"use strict";

(() => {
    const root = document.getElementById("bench");
    const $ = (id) => document.getElementById(id);
    const { here } = coldpeel;
    const rung = new Set();
    // Long enough to read what is asked, and to tap again with a glove on.
    const sureMs = 8000;

    coldpeel.draw = () => {
        if (here.day === null) {
            return;
        }
        const now = coldpeel.clock.now();
        const b = coldpeel.board.look(here.day, here.state, now, here.hand);
        coldpeel.now.draw(b, now);
        coldpeel.lists.draw(b, now);
        coldpeel.over.draw(b, now);
        coldpeel.bar.draw(b);
        for (const p of b.presses.filter((one) => one.task !== null && one.untilMs !== null && !one.opened)) {
            ringOnce(p.task.id, p.untilMs, now);
            ringOnce(`far over ${p.task.id}`, p.farFromMs, now);
        }
    };

    // A bell for what rang long ago, on a screen that was just opened, helps nobody.
    function ringOnce(what, fromMs, now) {
        if (now >= fromMs && !rung.has(what)) {
            rung.add(what);
            if (now - fromMs < 60000) {
                coldpeel.bell.ring();
            }
        }
    }

    root.addEventListener("click", ({ target }) => {
        const button = target.closest("button");
        if (button === null || here.day === null) {
            return;
        }
        if (button.id === "do" || (button.dataset.task && button.classList.contains("slip"))) {
            if (button.dataset.task && !(button.id === "do" ? coldpeel.now : coldpeel.lists).isSettling()) {
                coldpeel.taps.tap("done", button.dataset.task);
            }
        } else if (button.id === "back") {
            coldpeel.taps.tap("taken-back", button.dataset.key);
        } else if (button.id === "spoilt") {
            if (here.sure === button.dataset.item) {
                here.sure = null;
                coldpeel.taps.tap("spoilt", button.dataset.item);
            } else {
                here.sure = button.dataset.item;
                here.sureUntil = performance.now() + sureMs;
                coldpeel.draw();
            }
        } else if (button.id === "asked-kept" || button.id === "asked-spoilt") {
            const { task, item } = $("asked").dataset;
            if (!coldpeel.over.isSettling()) {
                coldpeel.taps.tap(button.id === "asked-kept" ? "kept" : "spoilt", button.id === "asked-kept" ? task : item);
            }
        } else if (button.dataset.again) {
            coldpeel.taps.tap("again", button.dataset.again);
        } else if (button.dataset.late) {
            $("late").open = false;
            if (coldpeel.late.chosen() !== null) {
                coldpeel.taps.tap("late", coldpeel.late.chosen(), Number(button.dataset.late) * 60);
            }
        } else if (button.dataset.subject !== undefined) {
            coldpeel.late.choose(button.dataset.subject);
            coldpeel.draw();
            show("late");
        } else if (button.dataset.add) {
            $("add").open = false;
            coldpeel.taps.tap("added", button.dataset.add);
        } else if (button.dataset.hand !== undefined) {
            here.hand = Number(button.dataset.hand);
            here.keepHand();
            coldpeel.draw();
        }
    });

    async function begin() {
        try {
            await Promise.all([coldpeel.clock.ask(), coldpeel.news.fetchDay()]);
            coldpeel.draw();
            coldpeel.news.listen();
            coldpeel.taps.send();
            coldpeel.news.keepPage();
        } catch {
            here.linked = false;
            await coldpeel.news.readKept();
            coldpeel.draw();
            setTimeout(begin, 2000);
        }
    }

    // What opens stands below the row, and on a low screen below its edge: a tap that shows nothing seems to do nothing.
    const show = (id) => $(id).open && $(`${id}-open`).scrollIntoView({ block: "nearest" });

    $("late").addEventListener("toggle", () => {
        // What was chosen the last time is not meant this time.
        if (!$("late").open) {
            coldpeel.late.choose(null);
        }
        coldpeel.draw();
        show("late");
    });
    $("add").addEventListener("toggle", () => {
        if ($("add").open) {
            show("add");
            coldpeel.late.offer(here.dayId).then(() => show("add"));
        }
    });

    // News come at least every five seconds: silence means that the network is gone, even if the browser has not noticed.
    setInterval(() => {
        if (here.linked && Date.now() - here.heard > 12000 && here.heard > 0) {
            here.linked = false;
        }
        coldpeel.draw();
    }, 200);
    addEventListener("online", coldpeel.taps.send);
    begin();
    // Keeps the screen awake where the browser allows it (Screen Wake Lock, W3C).
    const awake = () => navigator.wakeLock?.request("screen").catch(() => {});
    awake();
    document.addEventListener("visibilitychange", () => document.hidden || awake());
})();
