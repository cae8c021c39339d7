// What this screen knows: the day and how it stands, its own taps that wait, and what is said on it. Taps and the chosen hand outlast
// the page.
"use strict";

globalThis.coldpeel ??= {};
coldpeel.here = (() => {
    const dayId = document.getElementById("bench").dataset.day;
    const queueKey = `coldpeel/bench/${dayId}/taps`;
    const handKey = `coldpeel/bench/${dayId}/hand`;

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

    const here = {
        dayId,
        day: null,
        state: null,
        waiting: load(queueKey, []),
        hand: load(handKey, 0),
        linked: false,
        heard: 0,
        stuck: null,
        told: null,
        mine: null,
        // The item that is asked about once more, and until when the second tap counts: a brush minutes later spoils nothing.
        sure: null,
        sureUntil: 0,
        keepTaps: () => keep(queueKey, here.waiting),
        keepHand: () => keep(handKey, here.hand),
        refold: () => (here.state = coldpeel.board.fold(here.day, here.waiting)),
    };

    return here;
})();
