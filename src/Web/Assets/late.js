// Late, and a new order: what is late is chosen first, everything, an order, a sheet, a press or a person, and only then is it asked
// by how much, with the name of what was chosen; an order that was approved meanwhile is put into the running day.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.late = (() => {
    const { say } = coldpeel;
    const minutes = [5, 15, 30, 60];
    const $ = (id) => document.getElementById(id);
    // Nothing is late before somebody has said what: a finger that slips moves no day.
    let subject = null;

    function button(text, kind, data) {
        const one = document.createElement("button");
        one.type = "button";
        one.className = "slip";
        one.textContent = text;
        one.dataset[kind] = data;
        return one;
    }

    // Of what is not begun: an order whose items come later, a sheet whose artwork does, a press that is cold, a person.
    function subjects(day, state) {
        const open = day.tasks.filter((t) => t.work === "hand" && !state.done.has(t.id) && !state.dropped.has(t.id));
        const cards = new Map(day.cards.map((c) => [c.ref, c]));
        const waiting = (op) => [...new Map(open.filter((t) => t.op === op && cards.has(t.ref)).map((t) => [t.ref, cards.get(t.ref)])).values()];
        const orders = [...new Set(waiting("load").map((c) => c.job))];
        const several = new Set(day.cards.map((c) => c.job)).size > 1;
        return [
            ["", say("LateAll")],
            ...orders.map((o) => [`order:${o}`, say("LateOrder", { order: o })]),
            ...waiting("bond.load").sort((a, b) => a.ref.localeCompare(b.ref, "en", { numeric: true })).map((c) => [`sheet:${c.ref}`, say("LateSheet", { sheet: several ? `${c.title}, ${c.job}` : c.title })]),
            ...day.presses.map((p) => [`press:${p.id}`, say("LatePress", { press: p.id })]),
            ...(day.hands > 1 ? [["hand", say("LateHand")]] : []),
        ];
    }

    /** Draws what can be late; only what changed is built anew. */
    function draw(day, state, { list, put }) {
        const all = subjects(day, state);
        const chosen = all.find(([about]) => about === subject);
        subject = chosen === undefined ? null : subject;
        list($("late-what"), JSON.stringify(all), () => all.map(([about, text]) => button(text, "subject", about)));
        for (const one of $("late-what").children) {
            one.setAttribute("aria-pressed", String(one.dataset.subject === subject));
        }
        $("late-how").hidden = $("late-by").hidden = subject === null;
        put($("late-how"), chosen === undefined ? "" : say("LateHow", { what: chosen[1] }));
        list($("late-by"), "minutes", () => minutes.map((min) => button(say("LateBy", { minutes: min }), "late", min)));
    }

    /** What a tap that was made says, for people. */
    function words({ saying, about }) {
        if (saying === "added") {
            return `${say("Added")} ${about}`;
        }
        const [kind, ...name] = about.split(":");
        const key = { order: "LateOrder", sheet: "LateSheet", press: "LatePress", hand: "LateHand" }[kind] ?? "LateAll";
        const named = name.join(":");
        return `${say("Late")}: ${say(key, { order: named, sheet: named, press: named })}`;
    }

    async function offer(dayId) {
        const into = $("add-list");
        const told = document.createElement("p");
        try {
            const answer = await fetch(`/bench/${dayId}/more`, { cache: "no-store", signal: AbortSignal.timeout(8000) });
            const orders = await answer.json();
            told.textContent = orders.length === 0 ? say("AddNone") : say("AddWhich");
            into.replaceChildren(told, ...orders.map((o) => button(o.sheets === undefined ? say("AddOne", o) : say("AddOneUnprinted", o), "add", o.name)));
        } catch {
            told.textContent = say("AddAlone");
            into.replaceChildren(told);
        }
    }

    function choose(about) {
        subject = about;
    }

    return { draw, words, offer, choose, chosen: () => subject };
})();
