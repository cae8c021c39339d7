// Clocks with a bell, and ticks that stay. The clock holds the end as an instant: a slow or sleeping page never runs late.
"use strict";

let sound = null;

function ring() {
    if (sound === null) {
        return;
    }
    // Three pairs of strokes, loud enough for a room with a press in it.
    for (let stroke = 0; stroke < 6; stroke++) {
        const at = sound.currentTime + Math.floor(stroke / 2) * 0.7 + (stroke % 2) * 0.22;
        const tone = sound.createOscillator();
        const loud = sound.createGain();
        tone.type = "triangle";
        tone.frequency.value = stroke % 2 === 0 ? 880 : 1175;
        loud.gain.setValueAtTime(0.0001, at);
        loud.gain.exponentialRampToValueAtTime(0.8, at + 0.01);
        loud.gain.exponentialRampToValueAtTime(0.0001, at + 0.2);
        tone.connect(loud).connect(sound.destination);
        tone.start(at);
        tone.stop(at + 0.21);
    }
    navigator.vibrate?.([300, 150, 300, 150, 300]);
}

// Browsers let a page sound only after a touch: the start button is that touch.
function wake() {
    try {
        sound ??= new AudioContext();
        sound.resume();
    } catch {
        sound = null;
    }
}

function clock(button) {
    const seconds = Number(button.dataset.seconds);
    const word = button.querySelector(".word");
    const left = button.querySelector(".left");
    let ends = 0;
    let timer = 0;

    function show(state, says, figure) {
        button.dataset.state = state;
        word.textContent = says;
        left.textContent = figure;
        button.setAttribute("aria-label", `${button.dataset.name}: ${says} ${figure}`);
    }

    function ready() {
        clearInterval(timer);
        show("ready", "Start", `${seconds} s`);
    }

    function tick() {
        const rest = Math.ceil((ends - Date.now()) / 1000);
        if (rest > 0) {
            show("running", "Stop", `${rest} s`);
            return;
        }
        clearInterval(timer);
        show("rung", "Done", "again?");
        ring();
    }

    button.addEventListener("click", () => {
        if (button.dataset.state === "running") {
            ready();
            return;
        }
        wake();
        ends = Date.now() + seconds * 1000;
        timer = setInterval(tick, 100);
        tick();
    });
    ready();
}

function ticks() {
    const boxes = [...document.querySelectorAll("input[data-tick]")];
    const count = document.querySelector("[data-count-of]");
    const say = () => {
        if (count !== null) {
            count.textContent = `${boxes.filter((box) => box.checked).length} of ${boxes.length} inspected`;
        }
    };
    for (const box of boxes) {
        // Storage may be refused (private window): then the ticks last as long as the page.
        try {
            box.checked = localStorage.getItem(box.dataset.tick) === "1";
        } catch {}
        box.addEventListener("change", () => {
            try {
                if (box.checked) {
                    localStorage.setItem(box.dataset.tick, "1");
                } else {
                    localStorage.removeItem(box.dataset.tick);
                }
            } catch {}
            say();
        });
    }
    say();
}

document.querySelectorAll("button.clock").forEach(clock);
ticks();
