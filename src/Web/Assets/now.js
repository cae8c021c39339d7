// What to do now: the line, the item's picture and distances, set-point and time, and the large button.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.now = (() => {
    const { here, say, length } = coldpeel;
    const { card, named, words, span, make, put, pictureOf, settling, settleMs } = coldpeel.parts;
    const root = document.getElementById("bench");
    const $ = (id) => document.getElementById(id);
    let changedAt = -settleMs;

    function drawNow(b, now) {
        const t = b.first ?? b.wait;
        const button = $("do");
        root.dataset.state = here.day.closed ? "over" : b.first === null ? (b.wait === null ? "over" : "wait") : b.urgent ? "urgent" : "work";
        const state3 = root.dataset.state;
        put($("over"), state3 === "urgent" ? say("TimeUp") : state3 === "wait" ? say("Waiting") : state3 === "over" ? "" : say("Now"));
        if (t === null || here.day.closed) {
            put($("say"), here.day.closed ? say("DayClosed") : b.left > 0 ? say("WaitHand") : say("Over"));
            button.disabled = true;
            button.dataset.task = "";
            put(button.querySelector(".word"), "✓");
            put(button.querySelector(".left"), "");
            drawCard(null);
            return;
        }
        if (b.first === null) {
            const late = t.work === "hand" && here.day.startMs + t.notBeforeS * 1000 >= b.waitUntil;
            const title = named(card(t.ref)).title;
            put($("say"), t.work === "plate" ? say("WaitPress", { press: t.press }) : late ? say("WaitLate", { title }) : say("WaitRack", { title }));
            button.disabled = true;
            put(button.querySelector(".word"), t.work === "plate" ? say("OpensIn") : late ? say("ComesIn") : say("ColdIn"));
            put(button.querySelector(".left"), span(b.waitUntil - now));
        } else {
            put($("say"), words(t)[0]);
            button.disabled = false;
            put(button.querySelector(".word"), words(t)[1]);
            const over = t.work === "plate" ? now - coldpeel.board.until(here.state, t) : 0;
            put(button.querySelector(".left"), over > 999 ? say("OverBy", { time: span(over) }) : "");
        }
        const next = b.first?.id ?? "";
        if (button.dataset.task && next !== "" && next !== button.dataset.task) {
            changedAt = performance.now();
            setTimeout(() => coldpeel.draw(), settleMs + 10);
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

    function drawCard(t) {
        const c = t === null ? null : card(t.ref);
        const key = t === null ? "" : `${t.id} ${coldpeel.board.setpoint(here.day, here.state, t.press)}`;
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
        const at = t === null || t.press === undefined ? null : coldpeel.board.setpoint(here.day, here.state, t.press);
        const extra = [];
        if (heat && t.work === "hand" && at !== null && t.celsius !== undefined && at !== t.celsius) {
            extra.push(make("strong", say("SetTo", { press: t.press, celsius: t.celsius, from: at }), "set"));
        }
        // Only two-part film is bonded: without the adhesive sheet in the press the whole film is lost.
        if (t?.op === "bond.load") {
            extra.push(make("strong", say("BondAdhesive"), "layer"));
        }
        if (heat && s?.cover) {
            extra.push(make("strong", say("Cover", { what: s.cover }), "layer"));
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

    return { draw: drawNow, isSettling: () => settling(changedAt) };
})();
