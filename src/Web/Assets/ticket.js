// Clocks with a bell, and ticks that stay. The clock holds the end as an instant: a slow or sleeping page never runs late.
"use strict";

const { say } = coldpeel;

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
        show("ready", say("ClockStart"), `${seconds} s`);
    }

    function tick() {
        const rest = Math.ceil((ends - Date.now()) / 1000);
        if (rest > 0) {
            show("running", say("ClockStop"), `${rest} s`);
            return;
        }
        clearInterval(timer);
        show("rung", say("ClockDone"), say("ClockAgain"));
        coldpeel.bell.ring();
    }

    button.addEventListener("click", () => {
        if (button.dataset.state === "running") {
            ready();
            return;
        }
        coldpeel.bell.wake();
        ends = Date.now() + seconds * 1000;
        timer = setInterval(tick, 100);
        tick();
    });
    ready();
}

function ticks() {
    const boxes = [...document.querySelectorAll("input[data-tick]")];
    const count = document.querySelector("[data-count-of]");
    const tell = () => {
        if (count !== null) {
            count.textContent = say("Inspected", { count: boxes.filter((box) => box.checked).length, of: boxes.length });
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
            tell();
        });
    }
    tell();
}

document.querySelectorAll("button.clock").forEach(clock);
ticks();
