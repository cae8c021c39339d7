// The bar with the day's name, the network and the end of the day, and the row of what is seldom tapped: back, spoilt, late, a new order.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.bar = (() => {
    const { here, say } = coldpeel;
    const { card, words, clockTime, make, put, list, titleOf } = coldpeel.parts;
    const $ = (id) => document.getElementById(id);

    function draw(b) {
        drawBar(b);
        drawSlips(b);
    }

    // A day is called by its orders: another one may have come in.
    function drawName() {
        const name = $("name");
        if (name.textContent !== here.day.name) {
            document.title = document.title.replace(name.textContent, () => here.day.name);
            put(name, here.day.name);
        }
    }

    function drawBar(b) {
        drawName();
        const link = $("link");
        link.dataset.state = here.linked && here.stuck === null ? "linked" : "alone";
        put(
            link,
            !here.linked ? (here.waiting.length > 0 ? say("AloneTaps", { count: here.waiting.length }) : say("Alone"))
            : here.stuck !== null && here.waiting.length > 0 ? say("StuckTaps", { count: here.waiting.length })
            : here.waiting.some(coldpeel.taps.plansAgain) ? say("PlanningAgain")
            : here.waiting.length > 0 ? say("Sending")
            : say("Linked"),
        );
        const late = b.behindS >= 120 ? `; ${say("Behind", { minutes: Math.round(b.behindS / 60) })}` : "";
        put($("end"), b.left === 0 ? "" : say("EndsAt", { at: clockTime(b.endMs), left: b.left }) + late);
        list($("hands"), `${here.day.hands} ${here.hand}`, () =>
            here.day.hands < 2
                ? []
                : Array.from({ length: here.day.hands + 1 }, (_, n) => {
                      const one = make("button", n === 0 ? say("AllHands") : say("Hand", { hand: n }), "slip");
                      one.type = "button";
                      one.setAttribute("aria-pressed", String(n === here.hand));
                      one.dataset.hand = n;
                      return one;
                  }),
        );
    }

    // What a tap said, for whoever may take it back.
    function said(tap) {
        const task = here.state.byId.get(tap.about);
        if (task !== undefined) {
            const { title } = card(task.ref);
            return tap.saying === "kept" ? say("KeptGood", { title }) : `${words(task)[1]}, ${title}`;
        }
        return ["late", "added"].includes(tap.saying)
            ? coldpeel.late.words(tap)
            : `${tap.saying === "again" ? say("Again") : say("Spoilt")} ${titleOf(tap.about)}`;
    }

    function drawSlips(b) {
        const t = b.first ?? b.wait;
        const last = here.mine !== null && (here.day.events.some((e) => e.key === here.mine.key) || here.waiting.some((e) => e.key === here.mine.key)) ? here.mine : here.state.last;
        const back = $("back");
        back.hidden = last === null || here.day.closed;
        if (last !== null) {
            put(back, say("TakeBack", { what: said(last) }));
            back.dataset.key = last.key;
        }
        const spoilt = $("spoilt");
        spoilt.hidden = t === null || here.day.closed;
        if (t !== null) {
            if (here.sure !== null && (here.sure !== t.item || performance.now() > here.sureUntil)) {
                here.sure = null;
            }
            put(spoilt, here.sure === null ? say("Spoilt") : say("SpoiltSure", { what: titleOf(t.item) }));
            spoilt.dataset.item = t.item;
        }
        put($("late").querySelector("summary"), say("Late"));
        put($("add").querySelector("summary"), say("AddOrder"));
        put($("late-ask"), say("LateWhat"));
        $("late").hidden = $("add").hidden = here.day.closed;
        coldpeel.late.draw(here.day, here.state, coldpeel.parts);
        const trouble = here.waiting.length > 0 ? here.stuck : null;
        $("told").hidden = (trouble ?? here.told) === null;
        put($("told"), trouble ?? here.told ?? "");
    }

    return { draw };
})();
