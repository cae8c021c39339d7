// What the screen's lists and lines are made of: what a task says, times, and elements that change only where something changed.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.parts = (() => {
    const { here, say } = coldpeel;
    const lang = document.documentElement.lang;
    // A gloved hand taps twice: the second tap is not meant for the task that has just come.
    const settleMs = 500;

    function card(ref) {
        return here.day.cards.find((c) => c.ref === ref) ?? { ref, title: ref, who: "", label: "", settings: {}, cautions: [] };
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

    function titleOf(item) {
        const t = here.day.tasks.find((one) => one.item === item);
        return t === undefined ? item : named(card(t.ref)).title;
    }

    function pictureOf(c) {
        return `/orders/${encodeURIComponent(c.job)}/files/${encodeURIComponent(c.picture)}`;
    }

    function settling(since) {
        return performance.now() - since < settleMs;
    }

    return { card, named, words, span, clockTime, make, put, list, titleOf, pictureOf, settling, settleMs };
})();
