// What stands where and what comes next, out of the plan, all that was said, and the instant: nothing here counts or remembers.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.board = (() => {
    const followers = { lift: "press", unload: "finish.press", "bond.peel": "bond.press" };
    const begins = { "bond.load": "bond.peel", load: "lift", "finish.load": "unload" };

    const copyOf = (id) => Number(id.split("~")[1] ?? 0);
    const suffix = (id) => (id.includes("~") ? id.slice(id.indexOf("~")) : "");
    const chain = (t) => t.ref + suffix(t.id);
    // So long past its bell a press is far over its time; the workshop tells the least.
    const farMs = (day, t) => Math.max(day.farOverFloorS, t.endS - t.startS) * 1000;

    // All that was said, those taps too that wait for the network; the later copies of a task came with the "again" of their number.
    function fold(day, waiting) {
        const known = new Set(day.events.map((e) => e.key));
        const said = [...day.events, ...waiting.filter((w) => !known.has(w.key)).map((w) => ({ ...w, number: Infinity }))];
        const back = new Set(said.filter((e) => e.saying === "taken-back").map((e) => e.about));
        const byId = new Map(day.tasks.map((t) => [t.id, t]));
        const state = { byId, done: new Map(), dropped: new Set(), spoilt: new Map(), asked: new Map(), lateS: 0, last: null };
        for (const e of said) {
            if (e.saying === "taken-back" || back.has(e.key)) {
                continue;
            }
            state.last = e;
            if (e.saying === "done" && !state.done.has(e.about)) {
                state.done.set(e.about, e);
                ask(day, state, e);
            } else if (e.saying === "spoilt") {
                drop(day, state, e);
                answer(state, e.about);
            } else if (e.saying === "kept") {
                state.asked.delete(e.about);
            } else if (e.saying === "again") {
                state.spoilt.delete(e.about);
            } else if (e.saying === "late" && e.about === "") {
                state.lateS += e.seconds;
            } else if ((e.saying === "late" || e.saying === "added") && e.number !== Infinity) {
                // What is left was planned again in true seconds of the day: nothing is late in it.
                state.lateS = 0;
            }
        }
        return state;
    }

    // Opened far over its time: whether what lay in it is good is asked once.
    function ask(day, state, e) {
        const t = state.byId.get(e.about);
        const end = t?.work === "plate" ? until(state, t) : null;
        if (end !== null && e.atMs - end >= farMs(day, t)) {
            state.asked.set(t.id, { task: t, overMs: e.atMs - end });
        } else if (t?.op === "inspect") {
            answer(state, t.item);
        }
    }

    function answer(state, item) {
        for (const [id, { task }] of state.asked) {
            if (task.item === item) {
                state.asked.delete(id);
            }
        }
    }

    // Pieces of a sheet that lie on no item yet are as bad as it is, trimmed or not.
    function piecesOf(day, state, e) {
        const known = day.tasks.filter((t) => copyOf(t.id) <= e.number);
        const own = new Set(known.filter((t) => t.item === e.about).map((t) => t.id));
        const others = known.filter((t) => t.item !== e.about);
        const hang = new Set(others.filter((t) => t.after.some((a) => own.has(a))).map(chain));
        others.filter((t) => t.op === "load" && state.done.has(t.id)).forEach((t) => hang.delete(chain(t)));
        return hang;
    }

    function drop(day, state, e) {
        const there = day.tasks.filter((t) => !state.done.has(t.id) && !state.dropped.has(t.id) && copyOf(t.id) <= e.number);
        const pieces = piecesOf(day, state, e);
        const falls = new Set(there.filter((t) => t.item === e.about || pieces.has(chain(t))).map((t) => t.id));
        for (let more = true; more; ) {
            more = false;
            for (const t of there) {
                if (!falls.has(t.id) && t.after.some((a) => falls.has(a))) {
                    falls.add(t.id);
                    more = true;
                }
            }
        }
        falls.forEach((id) => state.dropped.add(id));
        state.spoilt.set(e.about, e);
    }

    const isOpen = (state, t) => !state.done.has(t.id) && !state.dropped.has(t.id);

    // When a clock that runs for this task is over; null while it does not run.
    function until(state, t) {
        const before = t.after[0] === undefined ? undefined : state.done.get(t.after[0]);
        return before === undefined ? null : before.atMs + (t.endS - t.startS) * 1000;
    }

    // "blocked", or the instant from which it can be done.
    function from(day, state, t) {
        // What comes late is not offered before it can be there.
        let at = t.notBeforeS > 0 ? day.startMs + t.notBeforeS * 1000 : 0;
        for (const id of t.after) {
            const a = state.byId.get(id);
            if (a?.work === "air") {
                const cold = until(state, a);
                if (cold === null) {
                    return null;
                }
                at = Math.max(at, cold);
            } else if (!state.done.has(id)) {
                return null;
            }
        }
        if (t.work === "plate") {
            return until(state, t);
        }
        return t.op in begins && held(day, state, t.press) !== null ? null : at;
    }

    // The task that closed this press and has not been emptied.
    function held(day, state, press) {
        for (const t of day.tasks) {
            if (t.press === press && t.op in begins && state.done.has(t.id)) {
                const end = state.byId.get(`${begins[t.op]} ${t.ref}${suffix(t.id)}`);
                if (end !== undefined && isOpen(state, end)) {
                    return t;
                }
            }
        }
        return null;
    }

    function handOf(state, t) {
        if (t.work !== "plate") {
            return t.hand;
        }
        const after = Object.keys(followers).find((f) => followers[f] === t.op);
        return state.byId.get(`${after} ${t.ref}${suffix(t.id)}`)?.hand ?? null;
    }

    function setpoint(day, state, press) {
        let last = null;
        for (const t of day.tasks) {
            const e = t.press === press && t.op in begins ? state.done.get(t.id) : undefined;
            if (e !== undefined && (last === null || e.atMs >= last.atMs)) {
                last = { atMs: e.atMs, celsius: t.celsius };
            }
        }
        return last?.celsius ?? day.presses.find((p) => p.id === press)?.celsius ?? null;
    }

    /** What to do now, what is on the presses and the rack, what comes next, and when it ends. */
    function look(day, state, now, hand) {
        const order = (t) => (t.work === "plate" ? t.endS : t.startS);
        const open = day.tasks
            .filter((t) => t.work !== "air" && isOpen(state, t))
            .filter((t) => hand === 0 || handOf(state, t) === hand)
            .sort((a, b) => order(a) - order(b) || a.startS - b.startS);
        const ready = new Map(open.map((t) => [t.id, from(day, state, t)]));
        const isReady = (t) => ready.get(t.id) !== null && ready.get(t.id) <= now;

        const follow = open.find((t) => t.op in followers && isReady(t));
        const due = open.filter((t) => t.work === "plate" && isReady(t)).sort((a, b) => ready.get(a.id) - ready.get(b.id))[0];
        const running = open.filter((t) => t.work === "plate" && ready.get(t.id) !== null && !isReady(t));
        const rings = running.sort((a, b) => ready.get(a.id) - ready.get(b.id))[0] ?? null;
        const doable = open.filter((t) => t.work === "hand" && isReady(t));
        // By the plan it comes before the next bell, or it is done before that bell rings.
        const fits = doable.find(
            (t) => rings === null || t.startS < rings.endS || (t.endS - t.startS) * 1000 <= ready.get(rings.id) - now,
        );
        const first = follow ?? due ?? fits ?? null;
        const cools = open.filter((t) => t.work === "hand" && ready.get(t.id) !== null && !isReady(t));
        const wait =
            first !== null ? null : (rings ?? cools.sort((a, b) => ready.get(a.id) - ready.get(b.id))[0] ?? null);
        const behind = first ?? wait ?? open[0] ?? null;
        const behindS = behind === null ? 0 : Math.round((now - day.startMs) / 1000) - order(behind);
        const lastS = Math.max(0, ...day.tasks.filter((t) => isOpen(state, t)).map((t) => t.endS));
        return {
            first,
            wait,
            waitUntil: wait === null ? null : ready.get(wait.id),
            urgent: first !== null && (first === due || first === follow),
            meanwhile: first === null ? doable.slice(0, 3) : [],
            next: open.filter((t) => t !== first && t !== wait && t.work === "hand" && !(t.op in followers)).slice(0, 5),
            left: day.tasks.filter((t) => t.work !== "air" && isOpen(state, t)).length,
            behindS: Math.max(0, behindS - state.lateS),
            endMs: day.startMs + (lastS + Math.max(state.lateS, behindS)) * 1000,
            presses: day.presses.map((p) => press(day, state, p)),
            asked: asked(state),
            rack: rack(day, state, now),
        };
    }

    // The hot item first, the question afterwards: what comes right after the opening is done before it is asked.
    function asked(state) {
        const open = [...state.asked.values()].find(({ task }) => {
            const next = state.byId.get(`${Object.keys(followers).find((f) => followers[f] === task.op)} ${task.ref}${suffix(task.id)}`);
            return next === undefined || !isOpen(state, next);
        });
        return open ?? null;
    }

    function press(day, state, p) {
        const begun = held(day, state, p.id);
        if (begun === null) {
            return { id: p.id, celsius: setpoint(day, state, p.id), task: null };
        }
        const plate = day.tasks.find(
            (t) => t.work === "plate" && t.press === p.id && t.ref === begun.ref && t.after.includes(begun.id),
        );
        return {
            id: p.id,
            celsius: begun.celsius,
            task: plate ?? begun,
            sinceMs: state.done.get(begun.id).atMs,
            untilMs: plate === undefined ? null : until(state, plate),
            farFromMs: plate === undefined ? null : until(state, plate) + farMs(day, plate),
            opened: plate !== undefined && state.done.has(plate.id),
        };
    }

    function rack(day, state, now) {
        const lying = [];
        for (const t of day.tasks) {
            const cold = t.work === "air" && !state.dropped.has(t.id) ? until(state, t) : null;
            const off = state.byId.get(`finish.load ${t.ref}${suffix(t.id)}`) ?? state.byId.get(`peel ${t.ref}${suffix(t.id)}`);
            if (cold !== null && off !== undefined && isOpen(state, off)) {
                lying.push({ task: t, untilMs: cold, cold: now >= cold });
            }
        }
        return lying.sort((a, b) => a.untilMs - b.untilMs);
    }

    return { fold, look, setpoint, until };
})();
