// The screen at the press. It draws what board.js finds, sends taps, and hears of the others' taps; without the network it goes on
// by itself, keeps its taps, and sends them when the network is back. Every tap has a key: sent twice it counts once.
"use strict";

(() => {
    const root = document.getElementById("bench");
    const $ = (id) => document.getElementById(id);
    const { say, length } = coldpeel;
    const lang = document.documentElement.lang;
    const dayId = root.dataset.day;
    const queueKey = `coldpeel/bench/${dayId}/taps`;

    let day = null;
    let state = null;
    let waiting = load(queueKey, []);
    let hand = load(`coldpeel/bench/${dayId}/hand`, 0);
    let linked = false;
    let heard = 0;
    // What is planned again takes the workshop a moment; the other taps do not wait for it.
    const sending = { plain: false, plan: false };
    let keeping = false;
    let stuck = null;
    let rung = new Set();
    let sure = null;
    let told = null;
    let mine = null;
    // A gloved hand taps twice: the second tap is not meant for the task that has just come.
    const settleMs = 500;
    let changedAt = -settleMs;
    let slipsChangedAt = -settleMs;
    // After an answer that a whole handful cannot be read, one tap after the other shows which it is.
    const singly = { plain: false, plan: false };

    function load(key, other) {
        try {
            return JSON.parse(localStorage.getItem(key)) ?? other;
        } catch {
            return other;
        }
    }

    function keep(key, value) {
        try {
            localStorage.setItem(key, JSON.stringify(value));
        } catch {
            // A private window keeps nothing: then the taps last as long as the page.
        }
    }

    // Not crypto.randomUUID: a tablet that comes by plain http in the workshop's own network has none.
    function newKey() {
        return [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
    }

    // --- taps -----------------------------------------------------------------------------------------------------------

    function tap(saying, about, seconds = 0) {
        coldpeel.bell.wake();
        told = null;
        const one = { key: newKey(), saying, about, seconds, atMs: Math.round(coldpeel.clock.now()), who: "" };
        waiting.push(one);
        keep(queueKey, waiting);
        mine = saying === "taken-back" ? null : one;
        refold();
        draw();
        send();
    }

    const plansAgain = (t) => t.saying === "added" || (t.saying === "late" && t.about !== "");

    // Nobody takes back what has not been said yet.
    function lane(kind) {
        const planning = waiting.filter(plansAgain);
        return (
            kind === "plan" ? planning.slice(0, 1) : waiting.filter((t) => !plansAgain(t) && !planning.some((p) => p.key === t.about))
        ).slice(0, singly[kind] ? 1 : 200);
    }

    function send() {
        deliver("plain");
        deliver("plan");
    }

    async function deliver(kind) {
        const some = lane(kind);
        if (sending[kind] || some.length === 0) {
            return;
        }
        sending[kind] = true;
        try {
            const answer = await fetch(`/bench/${dayId}/taps`, {
                method: "POST",
                headers: { "Content-Type": "application/json" },
                body: JSON.stringify(some.map(({ key, saying, about, seconds, atMs }) => ({ key, saying, about, seconds, atMs }))),
                signal: AbortSignal.timeout(kind === "plan" ? 20000 : 8000),
            });
            if (answer.status === 401 || answer.status === 403) {
                await leave();
                return;
            }
            // The workshop answers and cannot write: the taps wait here, and this screen says so.
            if (answer.status === 507 || answer.status === 503) {
                stuck = answer.status === 507 ? say("DiskFull") : say("CannotWrite");
                draw();
                setTimeout(send, 3000);
                return;
            }
            // Sent again it would not be read either, and all others would wait behind it.
            if (answer.status === 400) {
                if (some.length === 1) {
                    waiting = waiting.filter((t) => t.key !== some[0].key);
                    keep(queueKey, waiting);
                    told = say("TapDropped");
                    refold();
                    draw();
                } else {
                    singly[kind] = true;
                }
                setTimeout(send, 0);
                return;
            }
            if (answer.status >= 500) {
                stuck = say("ServerFault");
                draw();
                setTimeout(send, 3000);
                return;
            }
            if (!answer.ok) {
                throw new Error(String(answer.status));
            }
            stuck = null;
            const results = await answer.json();
            let again = false;
            for (const { key, event, refusal } of results) {
                waiting = waiting.filter((t) => t.key !== key);
                if (event !== undefined) {
                    again ||= changesTasks(event);
                    add(event);
                } else {
                    told = refusal;
                }
            }
            keep(queueKey, waiting);
            if (again) {
                await fetchDay();
            }
            refold();
            keepDay();
            draw();
        } catch {
            linked = false;
            setTimeout(send, 1500);
        } finally {
            sending[kind] = false;
            singly[kind] &&= lane(kind).length > 0;
        }
        if (lane(kind).length > 0 && linked && stuck === null) {
            setTimeout(send, 0);
        }
    }

    // A device that was thrown out forgets what it kept, and stands at the door.
    async function leave() {
        await coldpeel.kept.forget().catch(() => {});
        location.reload();
    }

    // --- news -----------------------------------------------------------------------------------------------------------

    function add(event) {
        if (!day.events.some((e) => e.number === event.number)) {
            day.events.push(event);
            day.events.sort((a, b) => a.number - b.number);
        }
    }

    async function fetchDay() {
        const answer = await fetch(`/bench/${dayId}/day`, { cache: "no-store", signal: AbortSignal.timeout(8000) });
        if (coldpeel.kept.isNo(answer)) {
            await leave();
        }
        if (!answer.ok) {
            throw new Error(String(answer.status));
        }
        day = await answer.json();
        refold();
        keepDay();
    }

    // The tasks themselves become others: they are asked for.
    const changesTasks = (e) => e.saying === "again" || e.saying === "taken-back" || plansAgain(e);

    // --- without the network --------------------------------------------------------------------------------------------

    const dayAddress = `/bench/${dayId}/day`;

    function keepDay() {
        if (keeping && day !== null) {
            const said = new Response(JSON.stringify(day), { headers: { "Content-Type": "application/json" } });
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
            const pictures = day.cards.filter((c) => c.picture).map(pictureOf);
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
        if (found !== undefined && day === null) {
            keeping = true;
            day = await found.json();
            refold();
        }
    }

    function pictureOf(c) {
        return `/orders/${encodeURIComponent(c.job)}/files/${encodeURIComponent(c.picture)}`;
    }

    function listen() {
        const source = new EventSource(`/bench/${dayId}/news?after=${day.events.at(-1)?.number ?? 0}`);
        source.onmessage = async (message) => {
            heard = Date.now();
            linked = true;
            const news = JSON.parse(message.data);
            const fresh = news.events.filter((n) => !day.events.some((e) => e.number === n.number));
            day.closed = news.closed;
            fresh.forEach(add);
            if (fresh.some(changesTasks)) {
                await fetchDay().catch(() => {});
            }
            refold();
            if (fresh.length > 0) {
                keepDay();
            }
            draw();
            send();
        };
        source.onerror = () => {
            linked = false;
            draw();
            if (source.readyState === EventSource.CLOSED) {
                // Asking for the day tells whether this device may still be here.
                setTimeout(() => fetchDay().catch(() => {}).then(listen), 2000);
            }
        };
    }

    function refold() {
        state = coldpeel.board.fold(day, waiting);
    }

    // --- drawing --------------------------------------------------------------------------------------------------------

    function card(ref) {
        return day.cards.find((c) => c.ref === ref) ?? { ref, title: ref, who: "", label: "", settings: {}, cautions: [] };
    }

    function named(c) {
        return c.who ? { ...c, title: `${c.title}, ${c.who}` } : c;
    }

    function words(t) {
        const { title, label } = named(card(t.ref));
        const key = t.op.replace(/(^|\.)(\w)/g, (_, dot, letter) => letter.toUpperCase());
        return [say(`${key}Say`, { title, label, press: t.press }), say(`${key}Do`)];
    }

    function span(ms) {
        const s = Math.max(0, Math.ceil(ms / 1000));
        return s >= 3600
            ? `${Math.floor(s / 3600)}:${String(Math.floor(s / 60) % 60).padStart(2, "0")}:${String(s % 60).padStart(2, "0")}`
            : `${Math.floor(s / 60)}:${String(s % 60).padStart(2, "0")}`;
    }

    function clockTime(ms) {
        // Shown on the device's own clock face; only the estimate of our clock decides.
        return new Date(ms).toLocaleTimeString(lang, { hour: "2-digit", minute: "2-digit", hourCycle: "h23" });
    }

    function make(tag, text, kind) {
        const one = document.createElement(tag);
        one.textContent = text ?? "";
        if (kind) {
            one.className = kind;
        }
        return one;
    }

    function put(node, text) {
        if (node.textContent !== text) {
            node.textContent = text;
        }
    }

    // Only what changed is built anew, so that a finger never taps on something that was just replaced.
    function list(node, key, build) {
        if (node.dataset.key !== key) {
            node.dataset.key = key;
            node.replaceChildren(...build());
        }
    }

    function draw() {
        if (day === null) {
            return;
        }
        const now = coldpeel.clock.now();
        const b = coldpeel.board.look(day, state, now, hand);
        drawNow(b, now);
        drawPresses(b, now);
        drawRack(b, now);
        drawNext(b);
        drawBar(b);
        drawSlips(b);
        for (const p of b.presses) {
            if (p.task !== null && p.untilMs !== null && !p.opened && now >= p.untilMs && !rung.has(p.task.id)) {
                rung.add(p.task.id);
                // A bell for what rang long ago, on a screen that was just opened, helps nobody.
                if (now - p.untilMs < 60000) {
                    coldpeel.bell.ring();
                }
            }
        }
    }

    function drawNow(b, now) {
        const t = b.first ?? b.wait;
        const button = $("do");
        root.dataset.state = day.closed ? "over" : b.first === null ? (b.wait === null ? "over" : "wait") : b.urgent ? "urgent" : "work";
        const state3 = root.dataset.state;
        put($("over"), state3 === "urgent" ? say("TimeUp") : state3 === "wait" ? say("Waiting") : state3 === "over" ? "" : say("Now"));
        if (t === null || day.closed) {
            put($("say"), day.closed ? say("DayClosed") : b.left > 0 ? say("WaitHand") : say("Over"));
            button.disabled = true;
            put(button.querySelector(".word"), "✓");
            put(button.querySelector(".left"), "");
            drawCard(null);
            return;
        }
        if (b.first === null) {
            const late = t.work === "hand" && day.startMs + t.notBeforeS * 1000 >= b.waitUntil;
            const title = named(card(t.ref)).title;
            put($("say"), t.work === "plate" ? say("WaitPress", { press: t.press }) : late ? say("WaitLate", { title }) : say("WaitRack", { title }));
            button.disabled = true;
            put(button.querySelector(".word"), t.work === "plate" ? say("OpensIn") : late ? say("ComesIn") : say("ColdIn"));
            put(button.querySelector(".left"), span(b.waitUntil - now));
        } else {
            put($("say"), words(t)[0]);
            button.disabled = false;
            put(button.querySelector(".word"), words(t)[1]);
            const over = t.work === "plate" ? now - coldpeel.board.until(state, t) : 0;
            put(button.querySelector(".left"), over > 999 ? say("OverBy", { time: span(over) }) : "");
        }
        const next = b.first?.id ?? "";
        if (button.dataset.task && next !== "" && next !== button.dataset.task) {
            changedAt = performance.now();
            setTimeout(draw, settleMs + 10);
        }
        button.dataset.task = next;
        // It looks as before: half a second of grey at every tap would only unsettle.
        if (settling(changedAt)) {
            button.setAttribute("aria-disabled", "true");
        } else {
            button.removeAttribute("aria-disabled");
        }
        drawCard(t);
    }

    function settling(since) {
        return performance.now() - since < settleMs;
    }

    function drawCard(t) {
        const c = t === null ? null : card(t.ref);
        const key = t === null ? "" : `${t.id} ${coldpeel.board.setpoint(day, state, t.press)}`;
        if ($("figures").dataset.key === key) {
            return;
        }
        $("figures").dataset.key = key;
        const s = c?.settings[t.op];
        const picture = $("picture");
        picture.hidden = !c?.picture;
        if (c?.picture) {
            const at = pictureOf(c);
            const img = picture.querySelector("img");
            if (img.getAttribute("src") !== at) {
                img.src = at;
            }
            // The drawing is a paper of the order: its figures are millimetres.
            put(picture.querySelector("figcaption"), coldpeel.unit === "in" ? say("DrawingMm") : "");
            img.alt = c.place ? `${c.title}: ${c.place.name}` : c.title;
        }
        const figures = [];
        const heat = t !== null && t.press !== undefined && !["lift", "unload", "bond.peel"].includes(t.op);
        if (heat && (t.celsius ?? null) !== null) {
            figures.push(figure(t.celsius, "°C"));
        }
        if (heat && s?.seconds) {
            figures.push(figure(s.seconds, "s"));
        }
        if (heat && s?.kPa) {
            figures.push(figure(s.kPa, "kPa"));
        } else if (heat) {
            figures.push(make("span", say("Maker"), "quiet"));
        }
        $("figures").replaceChildren(...figures);
        const place = c?.place && ["load", "press"].includes(t.op) ? c.place : null;
        $("place").replaceChildren(
            ...(place === null
                ? []
                : [
                      make("strong", place.name),
                      document.createTextNode(" "),
                      make("b", length(place.downMm)),
                      document.createTextNode(` ${say("Down", { unit: coldpeel.unit, from: place.from })}; ${coldpeel.inUnit(place.across)}`),
                  ]),
        );
        const at = t === null || t.press === undefined ? null : coldpeel.board.setpoint(day, state, t.press);
        const extra = [];
        if (heat && t.work === "hand" && at !== null && t.celsius !== undefined && at !== t.celsius) {
            extra.push(make("strong", say("SetTo", { press: t.press, celsius: t.celsius, from: at }), "set"));
        }
        if (heat && s?.cover) {
            extra.push(make("span", say("Cover", { what: s.cover })));
        }
        if (c?.label && ["load", "trim", "inspect"].includes(t.op)) {
            extra.push(make("span", c.label, "label"));
        }
        if (c && s?.say && ["bond.peel", "peel", "inspect", "lift"].includes(t.op)) {
            extra.push(make("span", coldpeel.inUnit(s.say), "quiet"));
        }
        $("extra").replaceChildren(...extra);
        $("caution").hidden = !c?.customersOwn;
        put($("caution"), c?.customersOwn ? say("Own") : "");
    }

    function figure(value, unit) {
        const one = make("span", "");
        one.append(make("b", String(value)), ` ${unit}`);
        return one;
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
            put(one.querySelector(".sign"), due ? say("OpenNow") : runs ? say("Closed") : p.task === null ? say("Free") : say("BeingEmptied"));
            if (runs) {
                one.querySelector("progress").value = Math.min(1000, (1000 * (now - p.sinceMs)) / Math.max(1, p.untilMs - p.sinceMs));
            }
        }
    }

    function drawRack(b, now) {
        put($("rack-name"), say("Rack", { count: b.rack.length, of: day.rackPlaces }));
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
        const spoilt = [...state.spoilt.keys()];
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

    function titleOf(item) {
        const t = day.tasks.find((one) => one.item === item);
        return t === undefined ? item : named(card(t.ref)).title;
    }

    // A day is called by its orders: another one may have come in.
    function drawName() {
        const name = $("name");
        if (name.textContent !== day.name) {
            document.title = document.title.replace(name.textContent, () => day.name);
            put(name, day.name);
        }
    }

    function drawBar(b) {
        drawName();
        const link = $("link");
        link.dataset.state = linked && stuck === null ? "linked" : "alone";
        put(
            link,
            !linked ? (waiting.length > 0 ? say("AloneTaps", { count: waiting.length }) : say("Alone"))
            : stuck !== null && waiting.length > 0 ? say("StuckTaps", { count: waiting.length })
            : waiting.some(plansAgain) ? say("PlanningAgain")
            : waiting.length > 0 ? say("Sending")
            : say("Linked"),
        );
        const late = b.behindS >= 120 ? `; ${say("Behind", { minutes: Math.round(b.behindS / 60) })}` : "";
        put($("end"), b.left === 0 ? "" : say("EndsAt", { at: clockTime(b.endMs), left: b.left }) + late);
        list($("hands"), `${day.hands} ${hand}`, () =>
            day.hands < 2
                ? []
                : Array.from({ length: day.hands + 1 }, (_, n) => {
                      const one = make("button", n === 0 ? say("AllHands") : say("Hand", { hand: n }), "slip");
                      one.type = "button";
                      one.setAttribute("aria-pressed", String(n === hand));
                      one.dataset.hand = n;
                      return one;
                  }),
        );
    }

    function drawSlips(b) {
        const t = b.first ?? b.wait;
        const last = mine !== null && (day.events.some((e) => e.key === mine.key) || waiting.some((e) => e.key === mine.key)) ? mine : state.last;
        const back = $("back");
        back.hidden = last === null || day.closed;
        if (last !== null) {
            const task = state.byId.get(last.about);
            put(back, say("TakeBack", { what: task ? `${words(task)[1]}, ${card(task.ref).title}` : ["late", "added"].includes(last.saying) ? coldpeel.late.words(last) : `${last.saying === "again" ? say("Again") : say("Spoilt")} ${titleOf(last.about)}` }));
            back.dataset.key = last.key;
        }
        const spoilt = $("spoilt");
        spoilt.hidden = t === null || day.closed;
        if (t !== null) {
            if (sure !== null && sure !== t.item) {
                sure = null;
            }
            put(spoilt, sure === null ? say("Spoilt") : say("SpoiltSure", { what: titleOf(t.item) }));
            spoilt.dataset.item = t.item;
        }
        put($("late").querySelector("summary"), say("Late"));
        put($("add").querySelector("summary"), say("AddOrder"));
        put($("late-ask"), say("LateWhat"));
        $("late").hidden = $("add").hidden = day.closed;
        coldpeel.late.draw(day, state, list);
        const trouble = waiting.length > 0 ? stuck : null;
        $("told").hidden = (trouble ?? told) === null;
        put($("told"), trouble ?? told ?? "");
    }

    // --- fingers --------------------------------------------------------------------------------------------------------

    root.addEventListener("click", ({ target }) => {
        const button = target.closest("button");
        if (button === null || day === null) {
            return;
        }
        if (button.id === "do" || (button.dataset.task && button.classList.contains("slip"))) {
            if (button.dataset.task && !settling(button.id === "do" ? changedAt : slipsChangedAt)) {
                tap("done", button.dataset.task);
            }
        } else if (button.id === "back") {
            tap("taken-back", button.dataset.key);
        } else if (button.id === "spoilt") {
            if (sure === button.dataset.item) {
                sure = null;
                tap("spoilt", button.dataset.item);
            } else {
                sure = button.dataset.item;
                draw();
            }
        } else if (button.dataset.again) {
            tap("again", button.dataset.again);
        } else if (button.dataset.late) {
            $("late").open = false;
            tap("late", coldpeel.late.chosen(), Number(button.dataset.late) * 60);
            coldpeel.late.choose("");
        } else if (button.dataset.subject !== undefined) {
            coldpeel.late.choose(button.dataset.subject);
            draw();
        } else if (button.dataset.add) {
            $("add").open = false;
            tap("added", button.dataset.add);
        } else if (button.dataset.hand !== undefined) {
            hand = Number(button.dataset.hand);
            keep(`coldpeel/bench/${dayId}/hand`, hand);
            draw();
        }
    });

    async function begin() {
        try {
            await Promise.all([coldpeel.clock.ask(), fetchDay()]);
            linked = true;
            draw();
            listen();
            send();
            keepPage();
        } catch {
            await readKept();
            draw();
            setTimeout(begin, 2000);
        }
    }

    // What opens stands below the row, and on a low screen below its edge: a tap that shows nothing seems to do nothing.
    const show = (id) => $(id).open && $(`${id}-open`).scrollIntoView({ block: "nearest" });

    $("late").addEventListener("toggle", () => show("late"));
    $("add").addEventListener("toggle", () => {
        if ($("add").open) {
            show("add");
            coldpeel.late.offer(dayId).then(() => show("add"));
        }
    });

    // News come at least every five seconds: silence means that the network is gone, even if the browser has not noticed.
    setInterval(() => {
        if (linked && Date.now() - heard > 12000 && heard > 0) {
            linked = false;
        }
        draw();
    }, 200);
    addEventListener("online", send);
    begin();
    // Keeps the screen awake where the browser allows it (Screen Wake Lock, W3C).
    const awake = () => navigator.wakeLock?.request("screen").catch(() => {});
    awake();
    document.addEventListener("visibilitychange", () => document.hidden || awake());
})();
