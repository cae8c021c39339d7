// A press far over its time: said while it is closed, and asked once when it was opened that late, whether what lay in it is good.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.over = (() => {
    const { here, say } = coldpeel;
    const { card, named, span, put, settling, settleMs } = coldpeel.parts;
    const $ = (id) => document.getElementById(id);
    let changedAt = -settleMs;

    const isFar = (p, now) => p.task !== null && p.untilMs !== null && !p.opened && now >= p.farFromMs;

    function draw(b, now) {
        const far = here.day.closed ? [] : b.presses.filter((p) => isFar(p, now));
        $("far").hidden = far.length === 0;
        put($("far-say"), far.length === 0 ? "" : say("FarOver", { press: far.map((p) => p.id).join(", ") }));
        drawAsked(here.day.closed ? null : b.asked);
    }

    function drawAsked(asked) {
        const part = $("asked");
        const id = asked?.task.id ?? "";
        part.hidden = asked === null;
        // It has just come under the finger that tapped on something else.
        if (part.dataset.task !== id) {
            part.dataset.task = id;
            changedAt = performance.now();
        }
        if (asked !== null) {
            const { task, overMs } = asked;
            part.dataset.item = task.item;
            const { title } = named(card(task.ref));
            put($("asked-say"), say("Asked", { title, time: span(overMs - 999), press: task.press }));
            put($("asked-kept"), say("AskedKept"));
            put($("asked-spoilt"), say("AskedSpoilt", { title }));
            for (const button of [$("asked-kept"), $("asked-spoilt")]) {
                if (settling(changedAt)) {
                    button.setAttribute("aria-disabled", "true");
                } else {
                    button.removeAttribute("aria-disabled");
                }
            }
        }
    }

    return { draw, isFar, isSettling: () => settling(changedAt) };
})();
