// The presses with their clocks, the cooling rack, what comes next or can be done meanwhile, and what is spoilt.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.lists = (() => {
    const { here, say } = coldpeel;
    const { card, named, words, span, make, put, list, titleOf, settling, settleMs } = coldpeel.parts;
    const $ = (id) => document.getElementById(id);
    let slipsChangedAt = -settleMs;

    function draw(b, now) {
        drawPresses(b, now);
        drawRack(b, now);
        drawNext(b);
    }

    function drawPresses(b, now) {
        put($("presses-name"), say("Presses"));
        list($("presses"), b.presses.map((p) => `${p.id} ${p.task?.id ?? ""} ${p.opened}`).join(), () =>
            b.presses.map((p) => {
                const one = make("li", "", "press");
                one.dataset.press = p.id;
                const head = make("div", "", "head");
                head.append(make("strong", p.id), make("span", p.celsius === null ? "" : say("Stands", { celsius: p.celsius }), "quiet"));
                one.append(head, make("span", "", "time"), make("span", "", "sign"), make("span", p.task === null ? "" : named(card(p.task.ref)).title, "what"));
                const bar = document.createElement("progress");
                bar.hidden = p.task === null || p.untilMs === null || p.opened;
                bar.setAttribute("aria-hidden", "true");
                bar.max = 1000;
                one.append(bar);
                return one;
            }),
        );
        for (const p of b.presses) {
            const one = $("presses").querySelector(`[data-press="${CSS.escape(p.id)}"]`);
            const runs = p.task !== null && p.untilMs !== null && !p.opened;
            const due = runs && now >= p.untilMs;
            one.dataset.state = due ? "due" : runs ? "closed" : p.task === null ? "free" : "opened";
            put(one.querySelector(".time"), runs ? span(Math.abs(p.untilMs - now) + (due ? -999 : 0)) : "");
            const far = coldpeel.over.isFar(p, now);
            one.toggleAttribute("data-far", far);
            put(one.querySelector(".sign"), far ? say("FarSign") : due ? say("OpenNow") : runs ? say("Closed") : p.task === null ? say("Free") : say("BeingEmptied"));
            if (runs) {
                one.querySelector("progress").value = Math.min(1000, (1000 * (now - p.sinceMs)) / Math.max(1, p.untilMs - p.sinceMs));
            }
        }
    }

    function drawRack(b, now) {
        put($("rack-name"), say("Rack", { count: b.rack.length, of: here.day.rackPlaces }));
        list($("rack"), b.rack.map((r) => r.task.id).join(), () =>
            b.rack.length === 0
                ? [make("li", say("RackEmpty"), "quiet")]
                : b.rack.map((r) => {
                      const one = make("li", "");
                      one.dataset.task = r.task.id;
                      one.append(make("span", named(card(r.task.ref)).title), make("span", "", "time"));
                      return one;
                  }),
        );
        for (const r of b.rack) {
            const one = $("rack").querySelector(`[data-task="${CSS.escape(r.task.id)}"]`);
            one.dataset.state = r.cold ? "cold" : "cooling";
            put(one.querySelector(".time"), r.cold ? `✓ ${say("Cold")}` : span(r.untilMs - now));
        }
    }

    function drawNext(b) {
        put($("next-name"), b.meanwhile.length > 0 ? say("Meanwhile") : say("Next"));
        const some = b.meanwhile.length > 0 ? b.meanwhile : b.next;
        const key = `${b.meanwhile.length} ${some.map((t) => t.id).join()}`;
        // Another task has come under the finger that tapped on the one before.
        if ($("next").querySelector("button") !== null && $("next").dataset.key !== key) {
            slipsChangedAt = performance.now();
        }
        list($("next"), key, () =>
            some.map((t) => {
                const one = make("li", "");
                one.append(make("span", words(t)[0]));
                if (b.meanwhile.length > 0) {
                    const now = make("button", words(t)[1], "slip");
                    now.type = "button";
                    now.dataset.task = t.id;
                    one.append(now);
                }
                return one;
            }),
        );
        const spoilt = [...here.state.spoilt.keys()];
        $("spoilt-part").hidden = spoilt.length === 0;
        put($("spoilt-name"), say("SpoiltList"));
        list($("spoilt-list"), spoilt.join(), () =>
            spoilt.map((item) => {
                const one = make("li", "");
                const again = make("button", say("Again"), "slip");
                again.type = "button";
                again.dataset.again = item;
                one.append(make("span", titleOf(item)), again);
                return one;
            }),
        );
    }

    return { draw, isSettling: () => settling(slipsChangedAt) };
})();
